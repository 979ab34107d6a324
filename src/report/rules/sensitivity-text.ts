/** In words: which single word of the rules the advice, or the checks, hang on. */
import type { CaseSensitivity, Hanging, Tipping } from '../../evaluation/sensitivity.ts';
import type { Strength } from '../../evaluation/strengths.ts';
import type { CompiledRules } from '../../rulebase/compiled.ts';
import { paragraph } from '../wrap.ts';

/** More than this many tipping words are counted, not listed. */
const MOST_LISTED = 5;

/** `repeated-hits.trend@front worse ← front.spring.too-soft`, or `… with nothing off`. */
export function placeOf(rules: CompiledRules, { id, spots }: Strength): string {
  const [question = '', answer = '', cause = ''] = id.split(' ');
  const name = spots.length === 1 ? rules.questions[spots[0]!.question]!.id : question;
  return `${name} ${answer}, ${cause === 'usually' ? 'with nothing off' : `from ${cause}`}`;
}

function outcome(rules: CompiledRules, t: Tipping): string {
  if (t.first !== undefined) return rules.adjustments[t.first]!.do;
  return t.verdict === 'leave' ? 'leave it alone, nothing is off' : 'nothing yet, not known well enough';
}

/** The lines `explain` ends with. */
export function caseSensitivityLines(
  rules: CompiledRules,
  { tried, tipping }: CaseSensitivity,
  width: number,
): string[] {
  if (tried === 0) return ['No answer counts yet, so no rule carries the advice.'];
  if (tipping.length === 0)
    return [
      paragraph(
        `The first adjustment is firm. Each of the ${tried} strengths behind these answers was moved one word down and one up, and it stayed.`,
        width,
      ),
    ];
  const strengths = new Set(tipping.map((t) => t.strength.id)).size;
  const lines = [
    paragraph(
      `The first adjustment is not firm. ${tried} strengths stand behind these answers: moving any one of ${strengths} of them by one word would change it.`,
      width,
    ),
  ];
  for (const t of tipping.slice(0, MOST_LISTED))
    lines.push(
      paragraph(
        `${placeOf(rules, t.strength)}: ${t.from.word} → ${t.to.word} would make it: ${outcome(rules, t)}`,
        width,
        '  ',
      ),
    );
  if (tipping.length > MOST_LISTED) lines.push(`  and ${tipping.length - MOST_LISTED} more (--format json).`);
  return lines;
}

/** The same as data. */
export function caseSensitivityData(rules: CompiledRules, { tried, tipping }: CaseSensitivity) {
  return {
    tried,
    tipping: tipping.map((t) => ({
      rule: placeOf(rules, t.strength),
      from: t.from.word,
      to: t.to.word,
      first: t.first === undefined ? null : rules.adjustments[t.first]!.id,
      verdict: t.verdict,
    })),
  };
}

/** `rules check --sensitivity`, eighty columns. */
export function checkSensitivityText(
  rules: CompiledRules,
  hanging: readonly Hanging[],
  counts: { readonly strengths: number; readonly checks: number; readonly leftOut: number },
  most: number,
  width: number,
): string {
  const lines = [
    paragraph(
      `${counts.strengths} strengths moved one word down and one up over ${counts.checks} checks; ${hanging.length} of them change the outcome of a check.`,
      width,
    ),
  ];
  if (counts.leftOut > 0)
    lines.push(
      paragraph(
        `${counts.leftOut} more ${counts.leftOut === 1 ? 'check was' : 'checks were'} left out: the bike of each cannot be read.`,
        width,
      ),
    );
  if (hanging.length > 0) lines.push('', 'flips   of  rule');
  for (const h of hanging.slice(0, most)) {
    lines.push(
      `${String(h.flips).padStart(5)} ${String(h.checks).padStart(4)}  ${placeOf(rules, h.strength)}`,
    );
    lines.push(`${' '.repeat(12)}${h.word} → ${h.moves.map((m) => `${m.to}: ${m.flips}`).join(', → ')}`);
  }
  if (hanging.length > most) lines.push('', `and ${hanging.length - most} more (--format json).`);
  return `${lines.join('\n')}\n`;
}

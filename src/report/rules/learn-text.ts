/** What was learned from logs, in words and numbers. */
import type { Estimate, Learned } from '../../evaluation/learn.ts';
import type { MovedWord } from '../../evaluation/learn-pack.ts';
import type { CompiledRules } from '../../rulebase/compiled.ts';
import { percent } from '../../form/text.ts';
import { placeOf } from './sensitivity-text.ts';
import { page, type Style } from '../style.ts';
import { paragraph } from '../wrap.ts';

/** Of what stays, only the largest differences are listed. */
const MOST_LISTED = 10;

export function learnText(
  rules: CompiledRules,
  learned: Learned,
  moved: readonly MovedWord[],
  full: boolean,
  style: Style,
): string {
  const { cases, ridden, leftOut, whole, weight, rounds, settled, strengths, priors } = learned;
  const lines = [
    paragraph(
      `${cases} ${cases === 1 ? 'case' : 'cases'}, ${ridden} with a ridden change${leftOut === 0 ? '' : `; ${leftOut} left out`}. The pack's words count for ${weight} cases each.`,
      style.width,
    ),
  ];
  if (cases === 0)
    lines.push(
      paragraph(
        'Nothing to learn from: no case has both an answer and a ridden change of the rules.',
        style.width,
      ),
    );
  else if (!whole)
    lines.push(
      paragraph(
        `No prior moves: ${cases - ridden} of these bikes ${cases - ridden === 1 ? 'was' : 'were'} left as ${cases - ridden === 1 ? 'it was' : 'they were'}, and among changed bikes alone every cause looks more common than it is. Log every interview, also those that end with nothing to do.`,
        style.width,
      ),
    );
  if (learned.riders !== undefined)
    lines.push(
      paragraph(
        `These riders do not answer as the pack takes them to: the log fits as well where ${percent(learned.riders.slip)} of the answers are slips and ${percent(learned.riders.trust)} of the topics are misremembered. It was learned from with that. Nothing is firm, and no word moves.`,
        style.width,
      ),
    );
  if (!settled)
    lines.push(paragraph(`Not settled after ${rounds} rounds; the numbers may still move.`, style.width));
  const name = (kind: 'strength' | 'prior', index: number): string =>
    kind === 'strength'
      ? placeOf(rules, strengths[index]!.strength)
      : `${priors[index]!.rule.id}, before anything is asked`;
  const of = (kind: 'strength' | 'prior', index: number): Estimate =>
    kind === 'strength' ? strengths[index]! : priors[index]!;
  const row = (kind: 'strength' | 'prior', index: number, words: string): void => {
    const e = of(kind, index);
    const behind =
      kind === 'strength'
        ? `${e.behind.toFixed(0)} answers stand behind it, in ${e.cases} cases`
        : `off on ${e.behind.toFixed(0)} of ${e.cases} bikes`;
    lines.push(
      paragraph(name(kind, index), style.width, '  '),
      paragraph(
        `${words}${pct(e.old)} → ${pct(e.value)} (${pct(e.low)} to ${pct(e.high)}); ${behind}`,
        style.width,
        '      ',
      ),
    );
  };
  lines.push(
    '',
    style.strong(
      moved.length === 0
        ? 'No word moves.'
        : `${moved.length} ${moved.length === 1 ? 'word moves' : 'words move'}`,
    ),
  );
  for (const m of moved) row(m.kind, m.index, `${m.from} → ${m.to}: `);
  const gone = new Set(moved.map((m) => `${m.kind} ${m.index}`));
  const stays = [
    ...strengths.map((e, index) => ({ kind: 'strength' as const, index, e })),
    ...priors.map((e, index) => ({ kind: 'prior' as const, index, e })),
  ]
    .filter(({ kind, index, e }) => e.cases > 0 && !gone.has(`${kind} ${index}`))
    .sort((a, b) => shift(b.e) - shift(a.e) || a.index - b.index);
  if (stays.length > 0) lines.push('', style.strong('Stays at its word; the likeliest to move first'));
  for (const { kind, index } of full ? stays : stays.slice(0, MOST_LISTED)) row(kind, index, '');
  if (!full && stays.length > MOST_LISTED) lines.push(`  and ${stays.length - MOST_LISTED} more (--full).`);
  lines.push(
    '',
    paragraph(
      `In brackets: where the truth lies nine times in ten, from the cases' own scores and the pack's weight, if the pack's word was a fair first guess. A word moves only when at least ${weight} cases stand behind it, its value lies farther off than luck explains (one chance in twenty that luck moves any word at all), and another word is nearer.`,
      style.width,
    ),
  );
  return page(lines, style);
}

/** The same as data: everything that was estimated. */
export function learnData(rules: CompiledRules, learned: Learned, moved: readonly MovedWord[]) {
  const words = new Map(moved.map((m) => [`${m.kind} ${m.index}`, { from: m.from, to: m.to }]));
  const data = (e: Estimate, kind: 'strength' | 'prior', index: number) => ({
    old: e.old,
    value: e.value,
    low: e.low,
    high: e.high,
    cases: e.cases,
    behind: e.behind,
    moves: words.get(`${kind} ${index}`) ?? null,
  });
  const { cases, ridden, leftOut, whole, weight, rounds, settled } = learned;
  return {
    format: 1,
    cases,
    ridden,
    leftOut,
    whole,
    weight,
    rounds,
    settled,
    riders: learned.riders ?? null,
    strengths: learned.strengths.map((e, i) => ({
      rule: placeOf(rules, e.strength),
      ...data(e, 'strength', i),
    })),
    priors: learned.priors.map((e, i) => ({ cause: e.rule.id, ...data(e, 'prior', i) })),
  };
}

/** How far from its word, against how well it is known. */
function shift({ old, value, low, high }: Estimate): number {
  const logit = (p: number): number => Math.log(p / (1 - p));
  const wide = logit(high) - logit(low);
  return Number.isFinite(wide) ? Math.abs(logit(value) - logit(old)) / wide : 0;
}

function pct(p: number): string {
  return `${(100 * p).toFixed(p < 0.1 ? 1 : 0)} %`;
}

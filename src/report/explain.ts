/** Why a cause stands where it does: every answer's weight, for and against. */
import type { CompiledRules } from '../rulebase/compiled.ts';
import { alarmLines, alarmsOf } from './verdict/alarms.ts';
import { decibanNumber } from './decibans.ts';
import { askWords, evidenceText, type Audience } from './evidence-words.ts';
import { MOST_NAME, printable } from './foreign-text.ts';
import { percent } from '../form/text.ts';
import type { Result, ResultCause } from './result/result.ts';
import { page, type Style } from './style.ts';
import { headLine, verdictLines } from './verdict/verdict-lines.ts';
import type { Words } from './verdict/voice.ts';
import { paragraph } from './wrap.ts';

const DECIBAN_WIDTH = 10;

export function explainReport(
  rules: CompiledRules,
  result: Result,
  causes: readonly ResultCause[],
  priors: Readonly<Record<string, number>>,
  conflictBits: number | undefined,
  /** what the first adjustment hangs on, in lines */
  hanging: readonly string[],
  { style, audience }: { readonly style: Style; readonly audience: Audience },
): string {
  // Of causes and questions, for whoever edits the rules.
  const ids = audience === 'mechanic';
  const lines: string[] = [
    style.quiet(printable(result.case, MOST_NAME)),
    ...dangerLines(result, { style, rules, audience }),
  ];
  const questions = new Map(rules.questions.map((q) => [q.id, q]));
  for (const cause of causes) {
    lines.push(
      '',
      style.strong(`${cause.name}: ${percent(cause.probability)}`),
      style.quiet(
        paragraph(
          `${ids ? `${cause.id}; ` : ''}${percent(priors[cause.id] ?? 0)} before the first question`,
          style.width,
          '  ',
        ),
      ),
    );
    const told = cause.evidence.filter((e) => Math.abs(e.decibans) >= 0.05);
    if (told.length === 0) lines.push('  No answer speaks for or against it.');
    for (const e of told) {
      const bar = '█'.repeat(Math.min(DECIBAN_WIDTH, Math.round(Math.abs(e.decibans))));
      const side = e.decibans >= 0 ? 'for    ' : 'against';
      const id = ids && questions.has(e.question) ? ` (${e.question})` : '';
      lines.push(
        `  ${side} ${decibanNumber(e.decibans).padStart(9)} ${bar}`.trimEnd(),
        paragraph(`${evidenceText(rules, e, audience)}${id}`, style.width, '          '),
      );
    }
  }
  lines.push(
    '',
    paragraph(
      '10 dB makes a cause ten times as likely against the rest, 3 dB twice. Answers on one topic count for less together than alone.',
      style.width,
    ),
  );
  if (result.fit !== null) {
    const strange = result.fit.reask.length > 0;
    lines.push(
      '',
      paragraph(
        `The answers ${strange ? "don't fit together" : 'fit together'} (z = ${minus(result.fit.z.toFixed(2))}).${strange ? ' Ask again:' : ''}`,
        style.width,
      ),
      ...result.fit.reask.map((id) =>
        paragraph(`${askWords(rules, id)}${ids ? ` (${id})` : ''}`, style.width, '  - ', '    '),
      ),
    );
  }
  if (conflictBits !== undefined)
    lines.push(
      paragraph(
        `Conflict of the answers: ${minus(conflictBits.toFixed(2))} bits (above 0 they contradict each other).`,
        style.width,
      ),
    );
  if (result.next !== null)
    lines.push(
      '',
      paragraph(
        `Most useful question now: ${result.next.ask}${ids ? ` (${result.next.question}, ${result.next.bits.toFixed(2)} bits)` : ''}`,
        style.width,
      ),
    );
  return page([...lines, '', ...hanging], style);
}

/** Reasons are read before a ride too: what keeps from riding comes before them. */
function dangerLines(result: Result, words: Words): string[] {
  return result.verdict === 'stop'
    ? ['', headLine(result, words), ...verdictLines(result, words)]
    : alarmLines(alarmsOf(result, words.rules, words.audience), words);
}

function minus(number: string): string {
  return number.replace('-', '−');
}

/** One result as Markdown, for notes and issue trackers. */
import { alarmsOf, alarmTexts, quietPhrases } from './verdict/alarms.ts';
import type { Audience, WordedRules } from './evidence-words.ts';
import { printableLines } from './foreign-text.ts';
import { capital, percent } from '../form/text.ts';
import { atOnceWords, chancesWords, heedWords, stepWords, stopWords, withStep } from './phrases.ts';
import { shownCauses } from './result/ideas.ts';
import { firstOf, type Result } from './result/result.ts';
import { orderTexts } from './verdict/step-lines.ts';
import { refusedLines, unknownHead, verdictTexts } from './verdict/verdict-lines.ts';
import { NO_WORDS } from './verdict/voice.ts';

/** @param rules for the words of what must be checked before riding */
export function markdownReport(r: Result, audience: Audience, rules: WordedRules = NO_WORDS): string {
  const alarms = alarmsOf(r, rules, audience);
  const first = firstOf(r);
  const verdict = escape(verdictTexts(r, { rules, audience }).join(' '));
  const out: string[] = [`## ${escape(r.case)}`, ''];
  for (const alarm of alarmTexts(alarms)) out.push(`> **${escape(alarm)}**`, '');
  for (const w of [...r.warnings, ...refusedLines(r, audience)]) out.push(`> ${escape(w)}`, '');
  if (r.verdict === 'stop') out.push('**Stop: do not ride this bike, do not tune around it.**', '');
  if (r.verdict === 'leave') out.push(`**Leave it alone.** ${verdict}`, '');
  if (r.verdict === 'unknown') out.push(`**${unknownHead(r)}.** ${verdict}`, '');
  if (first !== undefined) {
    if (first.before !== null) out.push(`**${escape(first.before.do)}** Then:`, '');
    out.push(
      `**Do this first: ${escape(first.do)}**${stepWords(first) === '' ? '' : `: ${stepWords(first)}`}`,
      '',
    );
    out.push(`- ${capital(chancesWords(first))}; ${first.minutes} min`);
    out.push(`- Feel for: ${escape(first.feel)}`, `- To undo: ${escape(first.wayBack)}`);
    if (first.note !== null) out.push(`- ${escape(capital(first.note))}.`);
    for (const text of [...first.ridden, ...orderTexts(r)]) out.push(`- ${escape(text)}`);
    for (const k of first.knockOn) out.push(`- Side effect: ${escape(k)}`);
    out.push('');
  }
  if (r.trades !== undefined) out.push(...r.trades.map((line) => escape(line)), '');
  if (r.cautions.length > 0)
    out.push('**Cautions**', '', ...r.cautions.map((c) => `- ${escape(c.text)}`), '');
  out.push('| cause | probability |', '| --- | --- |', `| nothing off | ${percent(r.nothing)} |`);
  const shown = shownCauses(r);
  for (const c of shown) out.push(`| ${escape(c.name)} | ${percent(c.probability)} |`);
  const atOnce = atOnceWords([r.nothing, ...shown.map((c) => c.probability)], 100);
  if (atOnce !== undefined) out.push('', atOnce);
  const others = r.adjustments.filter((a) => a.id !== r.first);
  if (others.length > 0 && r.verdict !== 'stop') {
    out.push('', "**If that doesn't fix it**", '');
    others.slice(0, 2).forEach((a) => out.push(`1. ${escape(a.do)}${withStep(a)}.${escape(heedWords(a))}`));
    out.push('', 'Ask again before you try one of these. Each has its own cautions.');
  }
  // What must be checked before riding stands on top already.
  const next = alarms.has(r.next?.question ?? '') ? null : r.next;
  if (r.verdict !== 'stop' && (next !== null || r.assignments.length > 0)) {
    out.push('', '**Ask or check next**', '');
    if (next !== null) out.push(`- ${escape(next.ask)} (\`${next.question}\`)`);
    if (r.stop !== null) out.push(`- ${stopWords(r.stop, r.verdict)}`);
    for (const a of r.assignments) out.push(`- ${escape(a.text)}`);
  }
  const open = quietPhrases(r.unconfirmed, rules, alarms);
  if (open.length > 0 && r.verdict !== 'stop') {
    out.push('', '**Said, but not confirmed (not counted)**', '');
    for (const u of open) out.push(`- "${escape(u.phrase)}" ${escape(u.note)}`);
  }
  return `${out.join('\n')}\n\n`;
}

export { escape as escapeMarkdown };

/** Text of a case must stay text, whatever signs it holds. */
function escape(text: string): string {
  return printableLines(text)
    .replace(/[\\`*_{}[\]<>#|]/g, (sign) => `\\${sign}`)
    .replace(/\s*\n\s*/g, ' ');
}

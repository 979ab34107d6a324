/** A pit sheet as Markdown, for notes and printers that know no better. */
import { ENDS } from '../../bike/sheet.ts';
import { linesOf } from './cut-list.ts';
import { escapeMarkdown as text } from '../markdown.ts';
import { capital } from '../../form/text.ts';
import { restOf } from './evidence.ts';
import type { PitSheet } from './pit-sheet.ts';
import { COUNTED, type SettingRow, type Stand } from './settings.ts';
import { trialLines } from './trial.ts';

export function pitSheetMarkdown(sheet: PitSheet): string {
  const blocks = [
    `# Pit sheet: ${text(sheet.case)}${sheet.bike === null ? '' : `, ${text(sheet.bike)}`}`,
    sheet.said === null ? '' : `> ${text(sheet.said)}`,
    ...sheet.alarms.map((alarm) => `> **${text(alarm)}**`),
    'Date: ______ Rider: ______ Track: ______ Ground: ______ Set by: ______',
    `## ${{ change: 'Do this first: ', leave: '', unknown: '', stop: '' }[sheet.verdict]}${text(sheet.headline)}`,
    ...sheet.about.map(text),
    list(sheet.first.map(([label, words]) => `${label}: ${words}`)),
    part(
      'Cautions',
      list([
        ...sheet.cautions.map((c) => `${c.level === 'note' ? '' : `${c.level.toUpperCase()}: `}${c.text}`),
        ...linesOf(sheet.notes).map((n) => `About this sheet: ${n}`),
      ]),
    ),
    why(sheet),
    trial(sheet),
    settings(sheet.settings),
    physics(sheet),
    part('To check next', list(linesOf(sheet.ridersList))),
    part("If that doesn't fix it", list(sheet.waiting)),
    `Where the manufacturer's manual disagrees with this sheet, the manual wins. Rules: ${text(sheet.rules)}.`,
  ];
  return `${blocks.filter((block) => block !== '').join('\n\n')}\n`;
}

function part(heading: string, body: string): string {
  return body === '' ? '' : `## ${heading}\n\n${body}`;
}

function list(lines: readonly string[]): string {
  return lines.map((line) => `- ${text(line)}`).join('\n');
}

function table(head: readonly string[], rows: readonly (readonly string[])[]): string {
  return [head, head.map(() => '---'), ...rows].map((cells) => `| ${cells.join(' | ')} |`).join('\n');
}

function why({ why }: PitSheet): string {
  if (why === null) return '';
  const lead = `**${text(why.cause)}**: ${why.before} before the first question, ${why.now} now. Also possible: ${text(why.others.join(', '))}.`;
  const weights = table(
    ['the answer', 'weight', 'effect'],
    why.weights
      .slice(0, why.shown)
      .map((w) => [`${text(w.question)} **${text(w.answer)}**`, w.number, w.words]),
  );
  return [`## ${why.heading}`, lead, why.weights.length > 0 ? weights : '', restOf(why) ?? '']
    .filter((block) => block !== '')
    .join('\n\n');
}

function trial({ trial }: PitSheet): string {
  if (trial === null) return '';
  if (!trial.can) return part('The trial', text(trial.why));
  const { pen, relative, name } = trial;
  const rows = pen.rows.map(({ run }) => [String(run), ...pen.feelings.map(() => ''), '']);
  return part(
    'The trial',
    [
      `${text(capital(name))}, ${pen.unit}${pen.unit === 'clicks' ? ' from closed' : ''}. Rate 1 to 7, 7 is the good end. Date: ______${relative ? ' Start is at: ______' : ''}`,
      table(['run', ...pen.feelings.map((f) => text(f.ask)), 'time'], rows),
      list([...pen.feelings.map((f) => `${f.ask}: 1 ${f.low}, 7 ${f.high}`), ...trialLines(trial)]),
    ].join('\n\n'),
  );
}

function settings(rows: readonly SettingRow[]): string {
  const moved = ENDS.filter((end) => rows.some(({ cells }) => cells[end].changed));
  const body = rows.map(({ name, cells }) => [
    name,
    ...ENDS.flatMap((end) => {
      const { before, after, changed } = cells[end];
      if (!moved.includes(end)) return [stand(before)];
      return [stand(before), changed ? `**${stand(after)}**` : before.is === 'known' ? 'same' : stand(after)];
    }),
  ]);
  const head = ENDS.flatMap((end) => (moved.includes(end) ? [`${end} before`, `${end} after`] : [end]));
  return part(
    moved.length > 0 ? 'Settings, before and after' : 'Settings',
    `${COUNTED}\n\n${table(['setting', ...head], body)}`,
  );
}

function stand(value: Stand): string {
  switch (value.is) {
    case 'known':
    case 'none':
      return text(value.text);
    case 'again':
      return 'measure again';
    case 'blank':
      return '______';
  }
}

function physics({ physics, knockOn, undrawn }: PitSheet): string {
  const drawn = physics === null ? [] : [physics.curve, physics.row].filter((d) => d !== undefined);
  return part(
    'What else it does',
    list([
      ...knockOn,
      ...drawn.map((d) => `${d.title}: ${d.says.join(' ')}`),
      ...(undrawn === null ? [] : [undrawn]),
      ...(drawn.length === 0
        ? []
        : ['These numbers come from a model of this bike, not from a measurement.']),
    ]),
  );
}

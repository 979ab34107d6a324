/** A pit sheet as Markdown, for notes and printers that know no better. */
import { escapeMarkdown as text } from './markdown.ts';
import { restOf, type PitSheet } from './pit-sheet.ts';
import type { SettingRow, Stand } from './pit-sheet-settings.ts';
import { setWords, turnWords } from './pit-sheet-trial.ts';

export function pitSheetMarkdown(sheet: PitSheet): string {
  const blocks = [
    `# Pit sheet: ${text(sheet.case)}${sheet.bike === null ? '' : `, ${text(sheet.bike)}`}`,
    sheet.said === null ? '' : `> ${text(sheet.said)}`,
    'Date: ______ Rider: ______ Track: ______ Ground: ______ Set by: ______',
    `## ${{ change: 'Do this first: ', leave: '', unknown: '', stop: '' }[sheet.verdict]}${text(sheet.headline)}`,
    ...sheet.about.map(text),
    list(sheet.first.map(([label, words]) => `${label}: ${words}`)),
    part(
      'Cautions',
      list([
        ...sheet.cautions.map((c) => `${c.level === 'note' ? '' : `${c.level.toUpperCase()}: `}${c.text}`),
        ...sheet.notes.map((n) => `About this sheet: ${n}`),
      ]),
    ),
    why(sheet),
    trial(sheet),
    part('Settings, before and after', settings(sheet.settings)),
    physics(sheet),
    part("The rider's list: find out, come back", list(sheet.ridersList)),
    part('Only if that is not it', list(sheet.waiting)),
    `Where the maker's manual disagrees with this sheet, the manual wins. Rules: ${text(sheet.rules)}.`,
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
  const lead = `**${text(why.cause)}**: ${why.before} before anything was asked, ${why.now} now. Besides: ${text(why.others.join(', '))}.`;
  const weights = table(
    ['what was answered', 'weight', 'which makes it'],
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
  const rows = pen.rows.map((row) => [
    String(row.run),
    setWords(row.set, relative),
    turnWords(row.turn, pen.unit, row.arm === 'sham'),
    ...pen.feelings.map(() => ''),
    '',
  ]);
  return part(
    'The trial',
    [
      `${text(name)}, ${pen.unit}. Rate 1 to 7, 7 is the good end.`,
      table(['run', 'stands at', 'to get there', ...pen.feelings.map((f) => text(f.ask)), 'time'], rows),
      list([
        ...pen.feelings.map((f) => `${f.ask}: 1 ${f.low}, 7 ${f.high}`),
        ...(pen.extraSettling.atMost > 0
          ? [
              `If the first two runs are rated more than ${pen.extraSettling.apart} apart on average, ride up to ${pen.extraSettling.atMost} more before the first change.`,
            ]
          : []),
        ...pen.notes,
        ...pen.rules,
      ]),
    ].join('\n\n'),
  );
}

function settings(rows: readonly SettingRow[]): string {
  return table(
    ['setting', 'front before', 'front after', 'rear before', 'rear after'],
    rows.map(({ name, cells }) => [
      name,
      ...[cells.front, cells.rear].flatMap(({ before, after, changed }) => [
        stand(before),
        changed ? `**${stand(after)}**` : before.is === 'known' ? 'same' : stand(after),
      ]),
    ]),
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

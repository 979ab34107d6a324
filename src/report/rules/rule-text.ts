/** A rule in words: what it asks, what it points to, how strongly, and where it comes from. */
import { finePercent } from '../../form/text.ts';
import type { CompiledRules, Gate, Question } from '../../rulebase/compiled.ts';
import type { Adjustment } from '../../rulebase/compiled-adjustment.ts';
import { page, toAscii, type Style } from '../style.ts';
import { paragraph } from '../wrap.ts';

/** Columns that a text needs beside its id. */
const NARROW = 30;

type ListName = 'questions' | 'causes' | 'settings' | 'adjustments' | 'cautions';

/** @param style wraps long texts to its width; without it every entry is one line, for other programs to search */
export function listRules(
  rules: CompiledRules,
  what: ListName,
  format: 'text' | 'json',
  style?: Style,
): string {
  // A question at an end not known only takes answers, and is nobody's rule.
  const listed = rules[what].filter((x) => !('either' in x));
  if (format === 'json') return `${JSON.stringify(listed, null, 2)}\n`;
  const rows = listed.map(
    (x) => [x.id, 'ask' in x ? x.ask : 'do' in x ? x.do : 'name' in x ? x.name : x.text] as const,
  );
  const width = Math.max(...rows.map(([id]) => id.length));
  const lines = rows.map(([id, text]) => {
    if (style === undefined) return `${id.padEnd(width)}  ${text}`;
    // Where the ids leave no room beside them, the texts stand below.
    return style.width - width < NARROW
      ? `${id}\n${paragraph(text, style.width, '    ')}`
      : paragraph(text, style.width, `${id.padEnd(width)}  `);
  });
  const all = `${lines.join('\n')}\n`;
  return style?.unicode === false ? toAscii(all) : all;
}

/** @returns undefined when nothing has the id */
export function showRule(
  rules: CompiledRules,
  id: string,
  format: 'text' | 'json',
  style: Style,
): string | undefined {
  const question = rules.questions.find((q) => q.id === id);
  const adjustment = rules.adjustments.find((a) => a.id === id);
  const cause = rules.causes.findIndex((c) => c.id === id);
  const other =
    rules.settings.find((s) => s.id === id) ??
    rules.cautions.find((c) => c.id === id) ??
    rules.words.find((w) => w.id === id);
  const found = question ?? adjustment ?? rules.causes[cause] ?? other;
  if (found === undefined) return undefined;
  if (format === 'json') return `${JSON.stringify(found, null, 2)}\n`;
  const lines =
    question !== undefined
      ? questionLines(rules, question, style)
      : adjustment !== undefined
        ? adjustmentLines(rules, adjustment, style)
        : cause >= 0
          ? causeLines(rules, cause, style)
          : Object.entries(other!).map(([k, v]) =>
              paragraph(typeof v === 'string' ? v : JSON.stringify(v), style.width, `${k}: `, '  '),
            );
  return page(lines, style);
}

function questionLines(rules: CompiledRules, q: Question, style: Style): string[] {
  const out = [
    style.strong(q.id),
    paragraph(q.ask, style.width, '  '),
    paragraph(`For a rider: ${q.plain}`, style.width, '  '),
    paragraph(q.help, style.width, '  '),
  ];
  out.push(`  ${q.how}, ${q.minutes} min, topic ${q.topic}${q.safety ? ', safety' : ''}`);
  for (const gate of q.gates)
    out.push(`  only if ${gateWords(gate)}${gate.lax === true ? ', or not known' : ''}`);
  q.answers.forEach((answer, a) => {
    const isDefault = a === q.default;
    out.push(
      '',
      paragraph(
        `${style.strong(answer.id)}: ${answer.text}${isDefault ? ' (default: no sign noticed)' : `; with nothing off: ${finePercent(q.base[a]!)}`}`,
        style.width,
        '  ',
        '    ',
      ),
    );
    const links = q.links.filter((l) => l[1] === a).sort((x, y) => y[2] - x[2]);
    for (const [c, , strength] of links)
      out.push(`    ${finePercent(strength).padStart(6)}  ${rules.causes[c]!.id}`);
    for (const line of cautionLines(rules, q, answer.id)) out.push(paragraph(line, style.width, '    ! '));
  });
  for (const c of q.confusable) out.push('', paragraph(`Mistaken for ${c.id}: ${c.tell}`, style.width, '  '));
  return [...out, '', ...standingLines(q)];
}

function gateWords({ on, id, values }: Gate): string {
  return `${on === 'bike' ? 'bike.' : ''}${id} is ${values.join(' or ')}`;
}

/** What an answer stops, and what it warns of. */
function cautionLines(rules: CompiledRules, q: Question, answer: string): string[] {
  const text = (id: string): string => rules.cautions.find((c) => c.id === id)!.text;
  const alone = q.dangerous[answer];
  const beside = q.dangerousWith?.[answer];
  const caution = q.cautions?.[answer];
  const answersOf = (of: Readonly<Record<string, readonly string[]>>): string =>
    Object.entries(of)
      .map(([id, answers]) => `${id} = ${answers.join(' or ')}`)
      .join(', or ');
  const harmless = q.harmlessWhen?.[answer];
  return [
    ...(alone === undefined ? [] : [`Stops all tuning: ${text(alone)}`]),
    ...(beside === undefined
      ? []
      : [`Stops all tuning beside ${answersOf(beside.beside)}: ${text(beside.caution)}`]),
    ...(harmless === undefined ? [] : [`Stops nothing beside ${answersOf(harmless)}.`]),
    ...(caution === undefined ? [] : [text(caution)]),
  ];
}

function adjustmentLines(rules: CompiledRules, a: Adjustment, style: Style): string[] {
  const out = [
    style.strong(a.id),
    paragraph(a.do, style.width, '  '),
    paragraph(a.plain, style.width, '  '),
    paragraph(`${a.minutes} min; way back: ${a.wayBack}`, style.width, '  '),
  ];
  for (const m of a.moves)
    out.push(
      `  moves ${rules.settings[m.setting]!.id} toward ${rules.causes[m.toward]!.direction}, ${finePercent(m.share)} of a step`,
    );
  for (const [c, share] of a.fixes) out.push(`  cures ${rules.causes[c]!.id}, ${finePercent(share)}`);
  if (a.knockOn !== undefined) out.push(paragraph(`Also: ${a.knockOn}`, style.width, '  '));
  for (const [path, text] of a.knockOnWith ?? [])
    out.push(paragraph(`Also, unless there is no ${path}: ${text}`, style.width, '  '));
  if (a.repeat !== undefined)
    out.push(paragraph(`Repeat until ${a.repeat.until}; stop when ${a.repeat.stop}.`, style.width, '  '));
  if (a.next.length > 0) out.push(paragraph(`next rungs: ${a.next.join(', ')}`, style.width, '  '));
  for (const id of a.cautions)
    out.push(paragraph(rules.cautions.find((c) => c.id === id)!.text, style.width, '  ! '));
  for (const { id, answers } of a.cautionsWhen)
    out.push(
      paragraph(
        `Where ${answers.map(gateWords).join(' and ')}: ${rules.cautions.find((c) => c.id === id)!.text}`,
        style.width,
        '  ! ',
      ),
    );
  return [...out, '', ...standingLines(a)];
}

function causeLines(rules: CompiledRules, index: number, style: Style): string[] {
  const cause = rules.causes[index]!;
  const out = [
    style.strong(cause.id),
    `  ${cause.name}`,
    paragraph(cause.plain, style.width, '  '),
    `  before anything is asked: ${finePercent(cause.prior)}`,
    ...(cause.whileLikely === undefined
      ? []
      : [
          paragraph(
            `While it is likely: ${rules.cautions.find((c) => c.id === cause.whileLikely)!.text}`,
            style.width,
            '  ! ',
          ),
        ]),
    '',
    '  Questions that point to it',
  ];
  const links = rules.questions.flatMap((q) =>
    q.links.filter((l) => l[0] === index).map((l) => ({ q, answer: q.answers[l[1]]!.id, strength: l[2] })),
  );
  for (const { q, answer, strength } of links.sort((x, y) => y.strength - x.strength))
    out.push(`    ${finePercent(strength).padStart(6)}  ${q.id} = ${answer}`);
  out.push('', '  Adjustments that cure it');
  for (const a of rules.adjustments) {
    const share = Math.max(
      ...a.fixes.filter(([c]) => c === index).map(([, s]) => s),
      ...a.moves.filter((m) => m.setting === cause.setting && m.toward !== index).map((m) => m.share),
      0,
    );
    if (share > 0) out.push(`    ${finePercent(share).padStart(6)}  ${a.id}`);
  }
  return out;
}

function standingLines(x: { source: Question['source']; status: string; at: string }): string[] {
  const s = x.source;
  const source =
    typeof s === 'string'
      ? s.replace('-', ' ')
      : [s.title, s.year, s.page].filter((v) => v !== undefined).join(', ');
  return [`  ${x.status}; source: ${source}`, `  ${x.at}`];
}

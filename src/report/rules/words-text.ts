/** What a phrase could mean, in words: candidates to confirm and the question to ask, never an answer. */
import type { CompiledRules, Question } from '../../rulebase/compiled.ts';
import type { Hearing } from '../../words/hearing.ts';
import type { Candidate, Reading } from '../../words/matcher.ts';
import type { TriedReading, Wished } from '../../words/tried/tried.ts';
import { page, type Style } from '../style.ts';
import { quotedList } from '../quoted-list.ts';
import { readingWords } from '../reading-words.ts';
import { triedWords } from '../verdict/tried-words.ts';
import { paragraph } from '../wrap.ts';

export const WORDS_FORMAT = 1;

/** @param rest what of the text nothing was heard in */
export function wordsText(
  { readings, tried, wishes }: Hearing,
  rest: readonly string[],
  rules: CompiledRules,
  style: Style,
): string {
  const questions = new Map(rules.questions.map((q) => [q.id, q]));
  if (readings.length + tried.length + wishes.length === 0) {
    return `${paragraph(
      'None of these words are known. Try other words, or see earshot words --list for trade terms.',
      style.width,
    )}\n`;
  }
  const blocks = [
    ...readings.map((r) => block(r, questions, style)),
    ...tried.map((one) => triedBlock(one, style)),
    ...new Set(wishes.map((one) => wishBlock(one, style))),
    ...(rest.length === 0 ? [] : [`${paragraph(`Not understood: ${quotedList(rest)}.`, style.width)}\n`]),
  ];
  const foot = paragraph('None of this counts until it is confirmed as an answer.', style.width);
  return page([...blocks, style.quiet(foot)], style);
}

/** The same as data: one JSON object. */
export function wordsJson(said: string, { readings, tried, wishes }: Hearing): string {
  const list = readings.map(({ end, sure: _, ...rest }) => ({ ...rest, end: end ?? null }));
  const changes = tried.map(({ spans: _, ...rest }) => rest);
  const asked = wishes.map(({ spans: _, of: __, ...rest }) => rest);
  return `${JSON.stringify({ format: WORDS_FORMAT, said, readings: list, tried: changes, asked }, null, 2)}\n`;
}

function block(r: Reading, questions: ReadonlyMap<string, Question>, style: Style): string {
  const put = (text: string, lead: string): string => paragraph(text, style.width, lead);
  const where = r.end === undefined ? '' : r.end === 'both' ? ', at both ends' : `, at the ${r.end}`;
  const head = style.strong(put(`"${r.text}"${where}`, ''));
  if (r.ambiguous && !r.negated) {
    return [
      head,
      put('can mean different things:', '  '),
      ...r.means.map((m) => put(m, '  - ')),
      put('Ask:', '  '),
      ...r.separates.flatMap((id) => asked(id, questions, put)),
      '',
    ].join('\n');
  }
  if (r.candidates.length === 0)
    return [head, put('heard as a no; nothing to confirm.', '  '), ''].join('\n');
  const several = r.candidates.length === 1 ? '' : ' (one or more of these)';
  return [
    head,
    put(`${r.negated ? 'heard as a no, which' : 'this'} could mean${several}:`, '  '),
    ...r.candidates.flatMap((c) => offered(c, questions, put)),
    ...(r.clashes ?? []).map((text) => put(`It does not go with "${text}": ask which holds.`, '  ! ')),
    '',
  ].join('\n');
}

type Put = (text: string, lead: string) => string;

function asked(id: string, questions: ReadonlyMap<string, Question>, put: Put): string[] {
  const question = questions.get(id);
  return question === undefined ? [] : [put(`${question.ask} [${id}]`, '  ? ')];
}

function offered(c: Candidate, questions: ReadonlyMap<string, Question>, put: Put): string[] {
  const question = questions.get(c.question);
  const answer = question?.answers.find((a) => a.id === c.answer);
  if (question === undefined || answer === undefined) return [];
  return [
    put(readingWords(question, answer.id, 'mechanic'), '  - '),
    put(`${c.question}: ${c.answer}`, '    '),
  ];
}

function wishBlock({ asked: words }: Wished, style: Style): string {
  return [
    style.strong(paragraph(`"${words}"`, style.width)),
    paragraph(
      'asks about doing it: a diagnosis with these words answers that, with its odds.',
      style.width,
      '  ',
    ),
    '',
  ].join('\n');
}

function triedBlock(one: TriedReading, style: Style): string {
  const { setting, end, direction, by, unit, result, putBack } = one;
  const entry = [
    `setting: ${setting}`,
    `end: ${end ?? '?'}`,
    `direction: ${direction}`,
    ...(by === undefined ? [] : [`by: ${by}`, `unit: ${unit}`]),
    `result: ${result}`,
    ...(one.for === undefined ? [] : [`for: [${one.for.join(', ')}]`]),
    `put-back: ${putBack}`,
  ];
  return [
    style.strong(paragraph(`"${one.text}"`, style.width)),
    paragraph('this could be a change that was tried:', style.width, '  '),
    paragraph(triedWords(one), style.width, '  - '),
    paragraph(`tried: [{ ${entry.join(', ')} }]`, style.width, '    '),
    '',
  ].join('\n');
}

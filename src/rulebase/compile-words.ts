/** A rider's words → the phrases, openings and terms of the rule base, with every question they name looked up. */
import { atEither, withoutEnd, type CompiledRules, type Question } from './compiled.ts';
import type { Concept, Opening, Phrase } from './compiled-phrases.ts';
import type { Entry, RuleFileOf, Section, SourceOf } from './entries.ts';
import type { Ids, Named } from './look-up.ts';
import type { Path } from '../form/parse.ts';
import { defined } from '../form/plain-data.ts';
import { didYouMean } from '../form/suggest.ts';

type EntryOf<S extends Section> = Entry<SourceOf<S>>;

/** @param concepts ids of all that are known */
export function linkPhrases(
  entries: readonly EntryOf<'words'>[],
  questions: readonly Question[],
  concepts: Ids,
): Phrase[] {
  // A phrase names no end, so it may point at the question of either end: {end} is filled in when it is matched.
  const known = new Map(
    questions.flatMap((q) => [[q.id, q] as const, [q.id.replace(/@(front|rear)$/, '@{end}'), q] as const]),
  );
  return entries.map((e) => linkPhrase(e, known, concepts));
}

function linkPhrase(e: EntryOf<'words'>, known: ReadonlyMap<string, Question>, concepts: Ids): Phrase {
  const { data } = e;
  const check = (what: Named, id: string, ids: Ids, path: Path): void => {
    if (!ids.has(id)) e.unknown(what, id, ids, path);
  };
  data.says.forEach((says, i) => {
    for (const [, id] of says.matchAll(/<([^>]*)>/g)) check('concept', id!, concepts, ['says', i]);
  });
  data.unless?.forEach((id, i) => check('concept', id, concepts, ['unless', i]));
  data.separates?.forEach((id, i) => check('question', id, known, ['separates', i]));
  data['could-be']?.forEach(({ question, answer }, i) => {
    check('question', question, known, ['could-be', i, 'question']);
    checkAnswer(e, known.get(question), answer, ['could-be', i, 'answer'], question);
  });
  if (data.across === true)
    for (const key of ['unless', 'number', 'weak'] as const)
      if (data[key] !== undefined)
        e.wrong(
          [key],
          'shape',
          `${key}: is not looked at where across: true lets the words stand anywhere in a sentence.`,
          `Leave out ${key}:, or make a phrase without across: of it.`,
        );
  return defined<Phrase>({
    id: e.id,
    says: data.says,
    number: data.number,
    weak: data.weak,
    across: data.across || undefined,
    unless: data.unless,
    ambiguous: data.ambiguous ?? false,
    means: data.means ?? [],
    separates: data.separates ?? [],
    couldBe: data['could-be'] ?? [],
    at: e.at,
  });
}

/** @param topics ids of the questions, without their end */
export function linkConcept({ data, ...e }: EntryOf<'concepts'>, topics: Ids): Concept {
  const check = (ids: readonly string[] = [], ...path: readonly string[]): void =>
    ids.forEach((id, i) => void (topics.has(id) || e.unknown('question', id, topics, [...path, i])));
  check(data['not-about'], 'not-about');
  check(data.tells?.for, 'tells', 'for');
  return {
    id: e.id,
    words: data.words,
    where: data.where ?? false,
    same: data.same ?? false,
    masks: data.masks ?? false,
    well: data.well ?? false,
    notAbout: data['not-about'] ?? [],
    tells: { ...data.tells, putBack: data.tells?.['put-back'], countedIn: data.tells?.['counted-in'] },
    at: e.at,
  };
}

/** How readings of each question were judged. */
export function judgedReadings(entries: readonly EntryOf<'heard'>[], topics: Ids): CompiledRules['heard'] {
  for (const e of entries) if (!topics.has(e.id)) e.unknown('question', e.id, topics, ['id']);
  return Object.fromEntries(entries.map(({ id, data: { right, wrong } }) => [id, { right, wrong }]));
}

/** The questions with what each of their answers says, as a sentence; where the end is not known, of front or rear. */
export function withSentences(
  entries: readonly EntryOf<'sentences'>[],
  questions: readonly Question[],
): Question[] {
  const known = new Map(questions.map((q) => [q.id, q]));
  const says = new Map<string, Readonly<Record<string, string>>>();
  for (const e of entries) {
    const { id, data } = e;
    const question = known.get(id);
    if (question === undefined) {
      e.unknown('question', id, known, ['id']);
      continue;
    }
    const filled = (put: (text: string) => string): Record<string, string> =>
      Object.fromEntries(Object.entries(data.says).map(([answer, text]) => [answer, put(text)]));
    for (const answer of Object.keys(data.says)) checkAnswer(e, question, answer, ['says', answer]);
    says.set(id, filled(e.fill));
    const either = (text: string): string => text.replaceAll('{end}', 'front or rear');
    if (question.end !== undefined) says.set(atEither(id), filled(either));
  }
  return questions.map((q) => (says.has(q.id) ? { ...q, says: says.get(q.id)! } : q));
}

export function linkOpening(e: EntryOf<'openings'>, questions: readonly Question[]): Opening {
  const topics = new Set(questions.map((q) => q.topic));
  e.data.topics.forEach((topic, i) => {
    if (!topics.has(topic))
      e.wrong(['topics', i], 'unknown-id', `No question has the topic ${topic}.`, didYouMean(topic, topics));
  });
  const known = new Map(questions.map((q) => [q.id, q]));
  const answers = e.data.answers ?? {};
  for (const [id, answer] of Object.entries(answers)) {
    if (!known.has(id)) e.unknown('question', id, known, ['answers'], id);
    checkAnswer(e, known.get(id), answer, ['answers', id]);
  }
  const signs = signsOf(e, questions);
  return { id: e.id, say: e.data.say, plain: e.data.plain, topics: e.data.topics, answers, signs };
}

const ANY_SIGN = 'any';

function signsOf(e: EntryOf<'openings'>, questions: readonly Question[]): Opening['signs'] {
  const known = new Map(questions.map((q) => [withoutEnd(q.id), q]));
  const signs = Object.entries(e.data.signs ?? {}).map(([id, said]): [string, readonly string[]] => {
    const question = known.get(e.named('question', id, known, ['signs'], id));
    if (question === undefined) return [id, []];
    if (said === ANY_SIGN)
      return [id, question.answers.flatMap((a, i) => (i === question.default ? [] : [a.id]))];
    const answers = [said].flat();
    for (const answer of answers) checkAnswer(e, question, answer, ['signs', id], id);
    return [id, answers];
  });
  return Object.fromEntries(signs);
}

export function glossaryOf(files: readonly RuleFileOf[]): CompiledRules['glossary'] {
  const terms = new Map<string, CompiledRules['glossary'][number]>();
  for (const file of files) {
    for (const { term, means, see, 'not-in': notIn } of file.rules.glossary ?? [])
      terms.set(term, { term, means, ...(see ? { see } : {}), ...(notIn ? { notIn } : {}) });
  }
  return [...terms.values()].sort((a, b) => (a.term < b.term ? -1 : 1));
}

/** @param name of the question, as the rule gives it: {end} may stand for either end */
function checkAnswer(
  e: Entry<unknown>,
  question: Question | undefined,
  answer: string,
  path: Path,
  name = question?.id ?? '',
): void {
  const answers = question?.answers.map((a) => a.id) ?? [answer];
  if (!answers.includes(answer)) e.noAnswer(path, { question: name, answer, answers });
}

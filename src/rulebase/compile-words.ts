/** A rider's words → the phrases, openings and terms of the rule base, with every question they name looked up. */
import { atEither, withoutEnd, type CompiledRules, type Question } from './compiled.ts';
import type { Opening, Phrase } from './compiled-phrases.ts';
import type { Entry, Report, RuleFileOf } from './entries.ts';
import { reportNoAnswer, reportUnknown } from './look-up.ts';
import type { Place } from '../form/problem.ts';
import { didYouMean } from '../form/suggest.ts';

type PhraseEntry = Entry<NonNullable<RuleFileOf['rules']['words']>[number]>;

export function linkPhrases(
  entries: readonly PhraseEntry[],
  questions: CompiledRules['questions'],
  report: Report,
  concepts: ReadonlySet<string>,
): Phrase[] {
  // A phrase names no end, so it may point at the question of either end: {end} is filled in when it is matched.
  const known = new Map(
    questions.flatMap((q) => [[q.id, q] as const, [q.id.replace(/@(front|rear)$/, '@{end}'), q] as const]),
  );
  return entries.map((e) => linkPhrase(e, known, report, concepts));
}

function linkPhrase(
  e: PhraseEntry,
  known: ReadonlyMap<string, Question>,
  report: Report,
  concepts: ReadonlySet<string>,
): Phrase {
  const { data } = e;
  data.says.forEach((says, i) => {
    for (const [, id] of says.matchAll(/<([^>]*)>/g))
      if (!concepts.has(id!)) reportUnknown(report, e.place(['says', i]), 'concept', id!, concepts);
  });
  (data.unless ?? []).forEach((id, i) => {
    if (!concepts.has(id)) reportUnknown(report, e.place(['unless', i]), 'concept', id, concepts);
  });
  if (data.across === true)
    for (const key of ['unless', 'number', 'weak'] as const)
      if (data[key] !== undefined)
        report(
          e.place([key]),
          'shape',
          `${key}: is not looked at where across: true lets the words stand anywhere in a sentence.`,
          `Leave out ${key}:, or make a phrase without across: of it.`,
        );
  (data['could-be'] ?? []).forEach((c, i) => {
    const q = known.get(c.question);
    const at = ['could-be', i] as const;
    if (q === undefined)
      reportUnknown(report, e.place([...at, 'question']), 'question', c.question, known.keys());
    else checkAnswer(q, c, e.place([...at, 'answer']), report);
  });
  (data.separates ?? []).forEach((id, i) => {
    if (!known.has(id)) reportUnknown(report, e.place(['separates', i]), 'question', id, known.keys());
  });
  return {
    id: e.id,
    says: data.says,
    ...(data.number === undefined ? {} : { number: data.number }),
    ...(data.weak === undefined ? {} : { weak: data.weak }),
    ...(data.across === true ? { across: true } : {}),
    ...(data.unless === undefined ? {} : { unless: data.unless }),
    ambiguous: data.ambiguous ?? false,
    means: data.means ?? [],
    separates: data.separates ?? [],
    couldBe: data['could-be'] ?? [],
    at: e.at,
  };
}

/** The questions, without their end, that a concept is not about; one that is in no rule is reported. */
export function knownTopics(
  { data, place }: Entry<NonNullable<RuleFileOf['rules']['concepts']>[number]>,
  questions: readonly Question[],
  report: Report,
): readonly string[] {
  const known = new Set(questions.map((q) => withoutEnd(q.id)));
  const check = (ids: readonly string[] | undefined, ...path: readonly string[]): void =>
    ids?.forEach((id, i) => {
      if (!known.has(id)) reportUnknown(report, place([...path, i]), 'question', id, known);
    });
  check(data['not-about'], 'not-about');
  check(data.tells?.for, 'tells', 'for');
  return data['not-about'] ?? [];
}

/** How readings of each question were judged; a question that is in no rule is reported. */
export function judgedReadings(
  entries: readonly Entry<NonNullable<RuleFileOf['rules']['heard']>[number]>[],
  questions: readonly Question[],
  report: Report,
): CompiledRules['heard'] {
  const known = new Set(questions.map((q) => withoutEnd(q.id)));
  for (const { id, place } of entries)
    if (!known.has(id)) reportUnknown(report, place(['id']), 'question', id, known);
  return Object.fromEntries(entries.map(({ id, data: { right, wrong } }) => [id, { right, wrong }]));
}

/** The questions with what each of their answers says, as a sentence; where the end is not known, of front or rear. */
export function withSentences(
  entries: readonly Entry<NonNullable<RuleFileOf['rules']['sentences']>[number]>[],
  questions: readonly Question[],
  report: Report,
): Question[] {
  const says = new Map<string, Readonly<Record<string, string>>>();
  for (const { id, data, fill, place } of entries) {
    const question = questions.find((q) => q.id === id);
    if (question === undefined) {
      reportUnknown(
        report,
        place(['id']),
        'question',
        id,
        questions.map((q) => q.id),
      );
      continue;
    }
    const filled = (put: (text: string) => string): Record<string, string> =>
      Object.fromEntries(Object.entries(data.says).map(([answer, text]) => [answer, put(text)]));
    for (const answer of Object.keys(data.says))
      checkAnswer(question, { question: id, answer }, place(['says', answer]), report);
    says.set(id, filled(fill));
    if (question.end !== undefined)
      says.set(
        atEither(id),
        filled((text) => text.replaceAll('{end}', 'front or rear')),
      );
  }
  return questions.map((q) => {
    const own = says.get(q.id);
    return own === undefined ? q : { ...q, says: own };
  });
}

export function linkOpening(
  e: Entry<NonNullable<RuleFileOf['rules']['openings']>[number]>,
  topics: ReadonlySet<string>,
  questions: CompiledRules['questions'],
  report: Report,
): Opening {
  e.data.topics.forEach((topic, i) => {
    if (!topics.has(topic))
      report(
        e.place(['topics', i]),
        'unknown-id',
        `No question has the topic ${topic}.`,
        didYouMean(topic, topics),
      );
  });
  const answers = e.data.answers ?? {};
  for (const [id, answer] of Object.entries(answers)) {
    const question = questions.find((q) => q.id === id);
    if (question === undefined) {
      const ids = questions.map((q) => q.id);
      reportUnknown(report, e.place(['answers'], id), 'question', id, ids);
    } else checkAnswer(question, { question: id, answer }, e.place(['answers', id]), report);
  }
  const signs = signsOf(e, questions, report);
  return { id: e.id, say: e.data.say, plain: e.data.plain, topics: e.data.topics, answers, signs };
}

const ANY_SIGN = 'any';

function signsOf(
  { data, place }: Entry<NonNullable<RuleFileOf['rules']['openings']>[number]>,
  questions: CompiledRules['questions'],
  report: Report,
): Opening['signs'] {
  const known = new Map(questions.map((q) => [withoutEnd(q.id), q]));
  return Object.fromEntries(
    Object.entries(data.signs ?? {}).map(([id, said]) => {
      const question = known.get(id);
      const all = typeof said === 'string' ? [said] : said;
      if (question === undefined) {
        reportUnknown(report, place(['signs'], id), 'question', id, known.keys());
        return [id, []];
      }
      if (said === ANY_SIGN)
        return [id, question.answers.flatMap((a, i) => (i === question.default ? [] : [a.id]))];
      for (const answer of all) checkAnswer(question, { question: id, answer }, place(['signs', id]), report);
      return [id, all];
    }),
  );
}

export function glossaryOf(files: readonly RuleFileOf[]): CompiledRules['glossary'] {
  const terms = new Map<string, CompiledRules['glossary'][number]>();
  for (const file of files) {
    for (const { term, means, see, 'not-in': notIn } of file.rules.glossary ?? [])
      terms.set(term, { term, means, ...(see ? { see } : {}), ...(notIn ? { notIn } : {}) });
  }
  return [...terms.values()].sort((a, b) => (a.term < b.term ? -1 : 1));
}

/** @param named the question by the id that the rule gives it: {end} may stand for either end */
function checkAnswer(
  { answers }: Question,
  named: { readonly question: string; readonly answer: string },
  place: Place,
  report: Report,
): void {
  const ids = answers.map((a) => a.id);
  if (!ids.includes(named.answer)) reportNoAnswer(report, place, { ...named, answers: ids });
}

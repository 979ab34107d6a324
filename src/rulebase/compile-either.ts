/** Questions about one end → the same question with the end not known, which takes such answers and is never asked. */
import { atEither, EITHER, type DangerWith, type Question } from './compiled.ts';
import { capital } from '../form/text.ts';
import { type Entry } from './entries.ts';
import type { QuestionSource } from './schema/question.ts';

/**
 * Also of a check in the stand: who tells of it later may not say at which end it was made.
 * @param entries of `questions`, in the same order
 */
export function atEitherEnd(
  entries: readonly Entry<QuestionSource>[],
  questions: readonly Question[],
): Question[] {
  const index = new Map(questions.map((q, i) => [q.id, i]));
  return questions.flatMap((q, front): Question[] => {
    const rear = index.get(q.id.replace(/@front$/, '@rear'));
    if (q.end !== 'front' || rear === undefined || rear === front) return [];
    const other = questions[rear]!;
    // Two rules of their own that only share a name are not one question at two ends.
    if (q.answers.some((a, i) => a.id !== other.answers[i]?.id) || q.answers.length !== other.answers.length)
      return [];
    const fill = (text: string): string =>
      text.replaceAll('{end}', 'front or rear').replaceAll('{other}', 'other end');
    const { ask, plain, help, answers } = entries[front]!.data;
    return [
      {
        id: atEither(q.id),
        either: [front, rear],
        ask: capital(fill(ask)),
        plain: capital(fill(plain)),
        help: fill(help),
        how: q.how,
        minutes: q.minutes,
        topic: q.topic,
        group: `${q.topic}@${EITHER}/${q.how === 'stand' ? 'stand' : 'felt'}`,
        gates: [],
        safety: false,
        dangerous: { ...other.dangerous, ...q.dangerous },
        ...dangersBeside(q, other),
        ...(q.cautions === undefined && other.cautions === undefined
          ? {}
          : { cautions: { ...other.cautions, ...q.cautions } }),
        ...(q.circumstance === undefined ? {} : { circumstance: q.circumstance }),
        ...(q.neverNormal === undefined ? {} : { neverNormal: q.neverNormal }),
        answers: Object.entries(answers).map(([id, text]) => ({ id, text: fill(text) })),
        default: q.default,
        several: q.several,
        ...(q.list === true ? { list: true as const } : {}),
        implies: commonTo(q, other),
        base: [],
        links: [],
        confusable: [],
        source: q.source,
        status: q.status,
        at: q.at,
      },
    ];
  });
}

/** Beside an answer whose end is not known, an answer of either end is one of the same end. */
function dangersBeside(front: Question, rear: Question): Pick<Question, 'dangerousWith'> {
  const out: Record<string, DangerWith> = {};
  for (const { dangerousWith = {} } of [front, rear])
    for (const [answer, { caution, beside }] of Object.entries(dangerousWith)) {
      const all = Object.entries(beside).flatMap(([id, values]) => [
        [id, values] as const,
        [atEither(id), values] as const,
      ]);
      const kept = out[answer];
      const merged: Record<string, readonly string[]> = { ...kept?.beside };
      for (const [id, values] of all) merged[id] = [...new Set([...(merged[id] ?? []), ...values])];
      out[answer] = { caution: kept?.caution ?? caution, beside: merged };
    }
  return Object.keys(out).length === 0 ? {} : { dangerousWith: out };
}

/** What goes without saying at both ends alike, also of a question whose end is then not known either. */
function commonTo(front: Question, rear: Question): Question['implies'] {
  const either = ([id, answer]: readonly [string, string]): readonly [string, string] => [
    atEither(id),
    answer,
  ];
  return Object.fromEntries(
    Object.entries(front.implies).map(([answer, others]) => {
      const there = new Map(Object.entries(rear.implies[answer] ?? {}).map(either));
      return [
        answer,
        Object.fromEntries(
          Object.entries(others)
            .map(either)
            .filter(([id, value]) => there.get(id) === value),
        ),
      ];
    }),
  );
}

/** What must be measured, proved or ruled out before an adjustment may come first, and when one step of it is not enough. */
import type { Gate } from './compiled.ts';
import type { Adjustment, AnswersNeeded, Refusal, WordedWhen } from './compiled-adjustment.ts';
import { checkFact, factPath, type Ids } from './look-up.ts';
import type { Entry } from './entries.ts';
import { defined } from '../form/plain-data.ts';
import type { LinkContext } from './question-links.ts';
import type { Path } from '../form/parse.ts';
import type { AdjustmentSource } from './schema/adjustment.ts';

export type Order = Pick<
  Adjustment,
  | 'reads'
  | 'measureFirst'
  | 'firstWhenMeasured'
  | 'firstWhenAnswered'
  | 'beforePutBack'
  | 'proofs'
  | 'refuseWhen'
  | 'repeat'
  | 'cautionsWhen'
  | 'wordedWhen'
>;

interface OrderContext extends LinkContext {
  /** adjustments */
  readonly ids: Ids;
  /** question id → its answers */
  readonly answers: ReadonlyMap<string, readonly string[]>;
  /** questions that some measurement reads */
  readonly measured: ReadonlySet<string>;
}

type Answers = Record<string, string | string[]>;

export function linkOrder(e: Entry<AdjustmentSource>, context: OrderContext): Order {
  const { ids, causeIndex, answers, facts, measured } = context;
  const { data: a, fill } = e;
  const gauge = (template: string, path: Path): string => {
    const id = e.named('question', template, answers, path);
    if (answers.has(id) && !measured.has(id))
      e.wrong(
        path,
        'no-measurement',
        `Nothing measures ${id}.`,
        `Add an adjustment with kind: measure and reads: ${id}.`,
      );
    return id;
  };
  const needed = (given: Answers | undefined, within: Path): AnswersNeeded =>
    Object.entries(given ?? {}).map(([template, value]): Gate => {
      const path = [...within, template];
      const values = [value].flat().map((v) => fill(v));
      const fact = factPath(fill(template));
      // What lacks a proof is asked for, and a sheet is not.
      if (fact !== undefined && within[0] !== 'proofs') {
        checkFact(facts, fact, values, (message, remedy) => e.wrong(path, 'sheet', `It ${message}`, remedy));
        return { on: 'bike', id: fact, values };
      }
      const id = e.named('question', template, answers, path);
      const known = answers.get(id);
      for (const answer of known === undefined ? [] : values.filter((v) => !known.includes(v)))
        e.noAnswer(path, { question: id, answer, answers: known! });
      return { on: 'question', id, values };
    });
  const oneOf = (given: Answers | Answers[], path: Path): readonly AnswersNeeded[] =>
    Array.isArray(given) ? given.map((one, i) => needed(one, [...path, i])) : [needed(given, path)];
  const others = (given: readonly string[], path: Path): string[] =>
    given.map((one, i) => e.named('adjustment', one, ids, [...path, i]));
  const likely = (given: Record<string, number> | undefined, path: Path): Refusal['causes'] =>
    Object.entries(given ?? {}).flatMap(([template, least]) => {
      const index = causeIndex.get(e.named('cause', template, causeIndex, [...path, template]));
      return index === undefined ? [] : [[index, least] as const];
    });
  const reads = a.reads && e.named('question', a.reads, answers, ['reads']);
  if ((a.kind === 'measure') !== (reads !== undefined))
    e.wrong(
      [],
      'no-measurement',
      `${e.id} ${reads === undefined ? 'is of kind measure and reads nothing' : 'reads a question and is not of kind measure'}.`,
      'Write kind: measure and reads: with the question it answers.',
    );
  const { proofs, repeat, 'first-when-answered': first } = a;
  return defined<Order>({
    reads,
    measureFirst: (a['measure-first'] ?? []).map((one, i) => {
      const path = ['measure-first', i];
      if (typeof one === 'string') return { question: gauge(one, path) };
      return { question: gauge(one.read, [...path, 'read']), when: oneOf(one.when, [...path, 'when']) };
    }),
    firstWhenMeasured: (a['first-when-measured'] ?? []).map((one, i) =>
      gauge(one, ['first-when-measured', i]),
    ),
    firstWhenAnswered: first && oneOf(first, ['first-when-answered']),
    beforePutBack: a['before-put-back'],
    repeat: repeat && {
      until: fill(repeat.until),
      stop: fill(repeat.stop),
      byGauge: repeat['by-gauge'],
      far: repeat.far === undefined ? [] : oneOf(repeat.far, ['repeat', 'far']),
    },
    proofs: proofs && {
      blocked: others(proofs.blocked ?? [], ['proofs', 'blocked']),
      likely: proofs.likely ?? 0,
      answered: needed(proofs.answered, ['proofs', 'answered']),
    },
    cautionsWhen: Object.entries(a['cautions-when'] ?? {}).map(([caution, when]) => ({
      id: e.named('caution', caution, context.cautionIds, ['cautions-when', caution]),
      answers: needed(when, ['cautions-when', caution]),
    })),
    wordedWhen: a['worded-when']?.map((words, i) => ({
      answers: oneOf(words.answers, ['worded-when', i, 'answers']),
      words: defined<WordedWhen['words']>({
        do: fill(words.do),
        plain: fill(words.plain),
        feel: words.feel && fill(words.feel),
      }),
    })),
    refuseWhen: (a['refuse-when'] ?? []).flatMap((r, i): Refusal[] => {
      if (r.at !== undefined && r.at !== e.end) return [];
      const path = ['refuse-when', i];
      return [
        defined<Refusal>({
          answers: needed(r.answers, [...path, 'answers']),
          causes: likely(r.causes, [...path, 'causes']),
          below: likely(r.below, [...path, 'below']),
          unless: needed(r.unless, [...path, 'unless']),
          untilTested: r['until-tested'] && others(r['until-tested'], [...path, 'until-tested']),
          noRoom: r['no-room'],
          why: fill(r.why),
        }),
      ];
    }),
  });
}

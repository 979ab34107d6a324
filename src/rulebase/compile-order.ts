/** What must be measured, proved or ruled out before an adjustment may come first, and when one step of it is not enough. */
import type { Cause, Gate } from './compiled.ts';
import type { Adjustment, AnswersNeeded, Refusal } from './compiled-adjustment.ts';
import { checkFact, factPath, reportNoAnswer, reportUnknown } from './look-up.ts';
import type { Entry, Report } from './entries.ts';
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
>;

export interface OrderContext {
  readonly ids: ReadonlySet<string>;
  readonly causes: readonly Cause[];
  /** question id → its answers */
  readonly answers: ReadonlyMap<string, readonly string[]>;
  /** what a bike sheet can say, by path */
  readonly facts: ReadonlyMap<string, readonly string[]>;
  /** questions that some measurement reads */
  readonly gauges: ReadonlySet<string>;
  readonly report: Report;
}

export function linkOrder(e: Entry<AdjustmentSource>, context: OrderContext): Order {
  const { ids, causes, answers, facts, gauges, report } = context;
  const a = e.data;
  const question = (template: string, path: Path): string => {
    const id = e.fill(template);
    if (!answers.has(id)) reportUnknown(report, e.place(path), 'question', id, answers.keys());
    return id;
  };
  const gauge = (template: string, path: Path): string => {
    const id = question(template, path);
    if (answers.has(id) && !gauges.has(id))
      report(
        e.place(path),
        'no-measurement',
        `Nothing measures ${id}.`,
        `Add an adjustment with kind: measure and reads: ${id}.`,
      );
    return id;
  };
  const needed = (given: Record<string, string | string[]> | undefined, path: Path): AnswersNeeded =>
    Object.entries(given ?? {}).map(([template, value]): Gate => {
      const values = (typeof value === 'string' ? [value] : value).map((v) => e.fill(v));
      const fact = factPath(e.fill(template));
      // What lacks a proof is asked for, and a sheet is not.
      if (fact !== undefined && path[0] !== 'proofs') {
        checkFact(facts, fact, values, (message, remedy) =>
          report(e.place([...path, template]), 'sheet', `It ${message}`, remedy),
        );
        return { on: 'bike', id: fact, values };
      }
      const id = question(template, [...path, template]);
      const known = answers.get(id);
      for (const answer of known === undefined ? [] : values.filter((v) => !known.includes(v)))
        reportNoAnswer(report, e.place([...path, template]), { question: id, answer, answers: known! });
      return { on: 'question', id, values };
    });
  const other = (template: string, path: Path): string => {
    const id = e.fill(template);
    if (!ids.has(id)) reportUnknown(report, e.place(path), 'adjustment', id, ids);
    return id;
  };
  const likely = (given: Record<string, number> | undefined, path: Path): Refusal['causes'] =>
    Object.entries(given ?? {}).flatMap(([template, least]) => {
      const id = e.fill(template);
      const index = causes.findIndex((c) => c.id === id);
      if (index >= 0) return [[index, least] as const];
      reportUnknown(
        report,
        e.place([...path, template]),
        'cause',
        id,
        causes.map((c) => c.id),
      );
      return [];
    });
  const reads = a.reads === undefined ? undefined : question(a.reads, ['reads']);
  if ((a.kind === 'measure') !== (reads !== undefined))
    report(
      e.place(),
      'no-measurement',
      `${e.id} ${reads === undefined ? 'is of kind measure and reads nothing' : 'reads a question and is not of kind measure'}.`,
      'Write kind: measure and reads: with the question it answers.',
    );
  const oneOf = (
    given: NonNullable<AdjustmentSource['first-when-answered']>,
    path: Path,
  ): readonly AnswersNeeded[] =>
    Array.isArray(given) ? given.map((answers, i) => needed(answers, [...path, i])) : [needed(given, path)];
  const { proofs, repeat } = a;
  return {
    ...(reads === undefined ? {} : { reads }),
    measureFirst: (a['measure-first'] ?? []).map((one, i) =>
      typeof one === 'string'
        ? { question: gauge(one, ['measure-first', i]) }
        : {
            question: gauge(one.read, ['measure-first', i, 'read']),
            when: one.when.map((answers, w) => needed(answers, ['measure-first', i, 'when', w])),
          },
    ),
    firstWhenMeasured: (a['first-when-measured'] ?? []).map((one, i) =>
      gauge(one, ['first-when-measured', i]),
    ),
    ...(a['first-when-answered'] === undefined
      ? {}
      : { firstWhenAnswered: oneOf(a['first-when-answered'], ['first-when-answered']) }),
    ...(a['before-put-back'] === undefined ? {} : { beforePutBack: a['before-put-back'] }),
    ...(repeat === undefined
      ? {}
      : {
          repeat: {
            until: e.fill(repeat.until),
            stop: e.fill(repeat.stop),
            byGauge: repeat['by-gauge'],
            far: repeat.far === undefined ? [] : oneOf(repeat.far, ['repeat', 'far']),
          },
        }),
    ...(proofs === undefined
      ? {}
      : {
          proofs: {
            blocked: (proofs.blocked ?? []).map((one, i) => other(one, ['proofs', 'blocked', i])),
            likely: proofs.likely ?? 0,
            answered: needed(proofs.answered, ['proofs', 'answered']),
          },
        }),
    cautionsWhen: Object.entries(a['cautions-when'] ?? {}).map(([template, answers]) => ({
      id: e.fill(template),
      answers: needed(answers, ['cautions-when', template]),
    })),
    refuseWhen: (a['refuse-when'] ?? []).flatMap((r, i) => {
      if (r.at !== undefined && r.at !== e.end) return [];
      return [
        {
          answers: needed(r.answers, ['refuse-when', i, 'answers']),
          causes: likely(r.causes, ['refuse-when', i, 'causes']),
          below: likely(r.below, ['refuse-when', i, 'below']),
          unless: needed(r.unless, ['refuse-when', i, 'unless']),
          ...(r['until-tested'] === undefined
            ? {}
            : {
                untilTested: r['until-tested'].map((one, k) =>
                  other(one, ['refuse-when', i, 'until-tested', k]),
                ),
              }),
          why: e.fill(r.why),
        },
      ];
    }),
  };
}

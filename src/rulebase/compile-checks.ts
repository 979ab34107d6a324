/** Checks → one a end, with every id they name looked up. */
import { CANNOT_TELL, type Cause, type Question } from './compiled.ts';
import type { Adjustment } from './compiled-adjustment.ts';
import { bothEnds, fillDeep, filler, type Report, type RuleFileOf } from './entries.ts';
import { reportNoAnswer } from './look-up.ts';
import type { Path } from '../form/parse.ts';
import type { CheckSource } from './schema/rule-file.ts';
import { didYouMean } from '../form/suggest.ts';

interface Known {
  readonly questions: readonly Question[];
  readonly causes: readonly Cause[];
  readonly adjustments: readonly Adjustment[];
  readonly cautionIds: ReadonlySet<string>;
  readonly report: Report;
}

export function expandChecks(files: readonly RuleFileOf[], known: Known): Check[] {
  const questions = new Map(known.questions.map((q) => [q.id, q]));
  const causes = new Set(known.causes.map((c) => c.id));
  const adjustments = new Set(known.adjustments.map((a) => a.id));
  return files.flatMap((file) =>
    (file.rules.checks ?? []).flatMap((check, index) =>
      bothEnds(check.for).map((end): Check => {
        const place = (path: Path = [], key?: string) => file.parsed.locate(['checks', index, ...path], key);
        const fill = filler(end, place, known.report);
        const lookUp = (
          ids: { has(id: string): boolean; keys(): Iterable<string> },
          text: string,
          path: Path,
        ): string => {
          const id = fill(text);
          if (!ids.has(id))
            known.report(
              place(path),
              'unknown-id',
              `The check "${check.name}" names ${id}, which does not exist.`,
              didYouMean(id, ids.keys()),
            );
          return id;
        };
        return {
          name: end === undefined ? check.name : `${fill(check.name)} (${end})`,
          at: `${place().file}:${place().line}`,
          place: place(),
          given: given(check, fill, questions, place, known.report),
          ...(check.bike === undefined
            ? {}
            : { bike: fillDeep(check.bike, fill) as Record<string, unknown> }),
          expect: expectation(check, lookUp, causes, adjustments, known.cautionIds),
        };
      }),
    ),
  );
}

function given(
  check: CheckSource,
  fill: (text: string) => string,
  questions: ReadonlyMap<string, Question>,
  place: (path?: Path, key?: string) => ReturnType<RuleFileOf['parsed']['locate']>,
  report: Report,
): Check['given'] {
  const out: Record<string, Check['given'][string]> = {};
  for (const [template, answer] of Object.entries(check.given)) {
    const id = fill(template);
    const question = questions.get(id);
    const value = fill(typeof answer === 'string' ? answer : answer.answer);
    if (question === undefined) {
      report(
        place(['given'], template),
        'unknown-id',
        `The check "${check.name}" answers ${id}, which is no question.`,
        didYouMean(id, questions.keys()),
      );
    } else if (value !== CANNOT_TELL && !question.answers.some((a) => a.id === value)) {
      const answers = question.answers.map((a) => a.id);
      reportNoAnswer(report, place(['given', template]), { question: id, answer: value, answers });
    }
    out[id] = typeof answer === 'string' ? value : { ...answer, answer: value };
  }
  return out;
}

type LookUp = (
  ids: { has(id: string): boolean; keys(): Iterable<string> },
  text: string,
  path: Path,
) => string;

function expectation(
  check: CheckSource,
  lookUp: LookUp,
  causes: ReadonlySet<string>,
  adjustments: ReadonlySet<string>,
  cautions: ReadonlySet<string>,
): Check['expect'] {
  const e = check.expect;
  const all = (ids: ReadonlySet<string>, list: readonly string[], key: string) =>
    list.map((c, i) => lookUp(ids, c, ['expect', key, i]));
  const adjustment =
    e.adjustment === undefined ? undefined : typeof e.adjustment === 'string' ? [e.adjustment] : e.adjustment;
  return {
    ...(e.first === undefined ? {} : { first: lookUp(causes, e.first, ['expect', 'first']) }),
    ...(e['one-of'] === undefined ? {} : { oneOf: all(causes, e['one-of'], 'one-of') }),
    ...(e['top-3'] === undefined ? {} : { top3: all(causes, e['top-3'], 'top-3') }),
    ...(e.not === undefined ? {} : { not: all(causes, e.not, 'not') }),
    ...(e['at-least'] === undefined ? {} : { atLeast: e['at-least'] }),
    ...(e.nothing === undefined ? {} : { nothing: e.nothing }),
    ...(adjustment === undefined ? {} : { adjustment: all(adjustments, adjustment, 'adjustment') }),
    ...(e['not-adjustment'] === undefined
      ? {}
      : { notAdjustment: all(adjustments, e['not-adjustment'], 'not-adjustment') }),
    ...(e.caution === undefined ? {} : { caution: lookUp(cautions, e.caution, ['expect', 'caution']) }),
  };
}

/** One check, expanded for its end. */
export interface Check {
  readonly name: string;
  readonly at: string;
  readonly place: { readonly file: string; readonly line: number; readonly col: number };
  readonly given: Readonly<
    Record<
      string,
      string | { readonly answer: string; readonly sure?: 'sure' | 'fairly' | 'guess' | undefined }
    >
  >;
  readonly bike?: Readonly<Record<string, unknown>>;
  readonly expect: {
    readonly first?: string;
    readonly oneOf?: readonly string[];
    readonly top3?: readonly string[];
    readonly not?: readonly string[];
    readonly atLeast?: number;
    readonly nothing?: boolean;
    readonly adjustment?: readonly string[];
    readonly notAdjustment?: readonly string[];
    readonly caution?: string;
  };
}

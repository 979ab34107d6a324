/** Checks → one a end, with every id they name looked up. */
import { CANNOT_TELL, type Question } from './compiled.ts';
import { entryAt, fillDeep, filler, type Entry, type RuleFileOf } from './entries.ts';
import type { Ids, Named, Report } from './look-up.ts';
import { defined } from '../form/plain-data.ts';
import type { Place } from '../form/problem.ts';
import type { Path } from '../form/parse.ts';
import type { CheckSource } from './schema/rule-file.ts';

interface Known {
  readonly questions: readonly Question[];
  readonly causes: Ids;
  readonly adjustments: Ids;
  readonly cautions: Ids;
}

export function expandChecks(files: readonly RuleFileOf[], known: Known, report: Report): Check[] {
  const questions = new Map(known.questions.map((q) => [q.id, q]));
  return files.flatMap((file) =>
    (file.rules.checks ?? []).flatMap((data, index) =>
      (data.for ?? [undefined]).map((end): Check => {
        const place = (path: Path = [], key?: string): Place =>
          file.parsed.locate(['checks', index, ...path], key);
        const fill = filler(end, place, report);
        const name = end === undefined ? data.name : `${fill(data.name)} (${end})`;
        const at = `${place().file}:${place().line}`;
        const e = entryAt({ data, end, id: name, at, fill, place }, report);
        return defined<Check>({
          name,
          at,
          place: place(),
          given: given(e, questions),
          bike: data.bike && (fillDeep(data.bike, fill) as Record<string, unknown>),
          expect: expectation(e, known),
        });
      }),
    ),
  );
}

function given(e: Entry<CheckSource>, questions: ReadonlyMap<string, Question>): Check['given'] {
  const out: Record<string, Check['given'][string]> = {};
  for (const [template, said] of Object.entries(e.data.given)) {
    const question = e.named('question', template, questions, ['given'], template);
    const answer = e.fill(typeof said === 'string' ? said : said.answer);
    const answers = questions.get(question)?.answers.map((a) => a.id) ?? [answer];
    if (answer !== CANNOT_TELL && !answers.includes(answer))
      e.noAnswer(['given', template], { question, answer, answers });
    out[question] = typeof said === 'string' ? answer : { ...said, answer };
  }
  return out;
}

function expectation(e: Entry<CheckSource>, { causes, adjustments, cautions }: Known): Check['expect'] {
  const { expect } = e.data;
  const list = (what: Named, known: Ids, key: keyof typeof expect): string[] | undefined => {
    const ids = expect[key] as string | string[] | undefined;
    if (typeof ids === 'string') return [e.named(what, ids, known, ['expect', key])];
    return ids?.map((id, i) => e.named(what, id, known, ['expect', key, i]));
  };
  return defined<Check['expect']>({
    first: list('cause', causes, 'first')?.[0],
    oneOf: list('cause', causes, 'one-of'),
    top3: list('cause', causes, 'top-3'),
    not: list('cause', causes, 'not'),
    atLeast: expect['at-least'],
    nothing: expect.nothing,
    adjustment: list('adjustment', adjustments, 'adjustment'),
    notAdjustment: list('adjustment', adjustments, 'not-adjustment'),
    caution: list('caution', cautions, 'caution')?.[0],
  });
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

/** Packs of rule files → one layered table of entries an end, each still knowing its place. */
import type { End } from '../bike/sheet.ts';
import { isMap } from '../form/plain-data.ts';
import type { Parsed, Path } from '../form/parse.ts';
import type { Place, ProblemCode } from '../form/problem.ts';
import type { Standing } from './compiled.ts';
import {
  reportNoAnswer,
  reportUnknown,
  type Ids,
  type Named,
  type NoAnswer,
  type Report,
} from './look-up.ts';
import type { RuleFile } from './schema/rule-file.ts';
import type { Source } from './schema/parts.ts';

/** One validated rule file of one pack. */
export interface RuleFileOf {
  readonly pack: string;
  readonly parsed: Parsed;
  readonly rules: RuleFile;
}

export type Section = Exclude<keyof RuleFile, 'checks' | 'glossary'>;
export type SourceOf<S extends Section> = NonNullable<RuleFile[S]>[number];

/** Fills a text in; what is not there stays so. */
type Fill = <T extends string | undefined>(text: T) => T;

/** One entry for one end (or for none), with what is needed to point at its lines. */
export interface Entry<T> {
  readonly data: T;
  readonly end: End | undefined;
  /** the id with its end filled in */
  readonly id: string;
  readonly at: string;
  readonly fill: Fill;
  readonly place: (path?: Path, key?: string) => Place;
  /** reports what is wrong at a path of the entry; with `key`, at that key of the map there */
  readonly wrong: (path: Path, code: ProblemCode, message: string, remedy: string, key?: string) => void;
  /** the id that a template names, reported where it is none of those known */
  readonly named: (what: Named, template: string, known: Ids, path: Path, key?: string) => string;
  /** reports an id that is none of those known */
  readonly unknown: (what: Named, id: string, known: Ids, path: Path, key?: string) => void;
  /** reports an answer that its question does not have */
  readonly noAnswer: (path: Path, said: NoAnswer, code?: ProblemCode) => void;
}

/**
 * All entries of one section: a later pack replaces an id of an earlier one, a pack may not repeat itself.
 * @param figures what `{name}` stands for in their texts, at either end
 */
export function entriesOf<S extends Section>(
  files: readonly RuleFileOf[],
  section: S,
  report: Report,
  figures: ReadonlyMap<string, string> = new Map(),
): Entry<SourceOf<S>>[] {
  const withFigures = (text: string): string =>
    text.replace(/\{([^{}]*)\}/g, (whole, name: string) => figures.get(name) ?? whole);
  const layers = new Map<string, { file: RuleFileOf; index: number; data: SourceOf<S> }>();
  for (const file of files) {
    const list = (file.rules[section] ?? []) as SourceOf<S>[];
    list.forEach((data, index) => {
      const first = layers.get(data.id);
      if (first?.file.pack === file.pack) {
        const there = first.file.parsed.locate([section, first.index, 'id']);
        report(
          file.parsed.locate([section, index, 'id']),
          'duplicate-id',
          `The id ${data.id} stands twice in the pack ${file.pack}; first at ${there.file}:${there.line}.`,
          'Give one of them an id of its own.',
        );
        return;
      }
      const filled = figures.size === 0 ? data : (fillDeep(data, withFigures) as SourceOf<S>);
      layers.set(data.id, { file, index, data: filled });
    });
  }
  const out: Entry<SourceOf<S>>[] = [];
  const seen = new Map<string, Place>();
  for (const { file, index, data } of layers.values()) {
    const ends = (data as { for?: readonly End[] }).for ?? [undefined];
    for (const end of ends) {
      const place = (path: Path = [], key?: string): Place =>
        file.parsed.locate([section, index, ...path], key);
      const once = filler(end, place, report);
      // A figure of either end: {usual-{end}-sag} names one by then.
      const fill: Fill = (text) => {
        const filled = once(text);
        return filled?.includes('{') === true ? once(withFigures(filled) as typeof text) : filled;
      };
      const filled = fill(data.id);
      const ofQuestion = section === 'questions' || section === 'sentences';
      const id = ofQuestion && end !== undefined ? `${filled}@${end}` : filled;
      const earlier = seen.get(id);
      if (earlier !== undefined) {
        report(
          place(['id']),
          'duplicate-id',
          `The id ${id} is also made at ${earlier.file}:${earlier.line}.`,
          'Put {end} into the id, or rename one.',
        );
        continue;
      }
      seen.set(id, place(['id']));
      const { file: name, line } = place();
      out.push(entryAt({ data, end, id, at: `${name}:${line}`, fill, place }, report));
    }
  }
  return out;
}

/** An entry that reports what is wrong with it. */
export function entryAt<T>(
  at: Pick<Entry<T>, 'data' | 'end' | 'id' | 'at' | 'fill' | 'place'>,
  report: Report,
): Entry<T> {
  const { fill, place } = at;
  const unknown: Entry<T>['unknown'] = (what, id, known, path, key) =>
    reportUnknown(report, place(path, key), what, id, known);
  return {
    ...at,
    unknown,
    named: (what, template, known, path, key) => {
      const id = fill(template);
      if (!known.has(id)) unknown(what, id, known, path, key);
      return id;
    },
    noAnswer: (path, said, code) => reportNoAnswer(report, place(path), said, code),
    wrong: (path, code, message, remedy, key) => report(place(path, key), code, message, remedy),
  };
}

/**
 * Fills in {end} and {other}; a figure of the pack stands there by then, and any other placeholder, or one without an end,
 * is a mistake worth telling.
 */
export function filler(end: End | undefined, place: (path?: Path) => Place, report: Report): Fill {
  const meant = (whole: string, name: string): string => {
    if (end !== undefined && name === 'end') return end;
    if (end !== undefined && name === 'other') return end === 'front' ? 'rear' : 'front';
    const remedy =
      end === undefined && ['end', 'other'].includes(name)
        ? 'Add for: [front, rear], or write the end out.'
        : 'Use {end}, {other} or one of the figures of pack.yaml.';
    report(place(), 'bad-template', `${whole} has no meaning here.`, remedy);
    return name;
  };
  return (text) => text?.replace(/\{([^{}]*)\}/g, meant) as typeof text;
}

/** Source, status and place of an entry, as the compiled form keeps them. */
export function standing(e: Entry<{ source: Source; status: Standing['status'] }>): Standing {
  return { source: e.data.source, status: e.data.status, at: e.at };
}

/**
 * The other words of an entry for an end with one rebound knob, filled in.
 * @param names what the compiled form calls a key, where it is another name
 */
export function oneKnobWords(
  words: Readonly<Record<string, string | undefined>> | undefined,
  fill: (text: string) => string,
  names: Readonly<Record<string, string>> = {},
): Record<string, string> | undefined {
  if (words === undefined) return undefined;
  const filled = Object.entries(words).flatMap(([key, text]) =>
    text === undefined ? [] : [[names[key] ?? key, fill(text)]],
  );
  return Object.fromEntries(filled) as Record<string, string>;
}

/** Fills in every text and key of plain data. */
export function fillDeep(value: unknown, fill: (text: string) => string): unknown {
  if (typeof value === 'string') return fill(value);
  if (Array.isArray(value)) return value.map((v) => fillDeep(v, fill));
  if (isMap(value)) {
    return Object.fromEntries(Object.entries(value).map(([k, v]) => [fill(k), fillDeep(v, fill)]));
  }
  return value;
}

/** Packs of rule files → one layered table of entries an end, each still knowing its place. */
import type { End } from '../bike/sheet.ts';
import type { Parsed, Path } from '../form/parse.ts';
import type { Place, Problem, ProblemCode } from '../form/problem.ts';
import type { Standing } from './compiled.ts';
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

/** One entry for one end (or for none), with what is needed to point at its lines. */
export interface Entry<T> {
  readonly data: T;
  readonly end: End | undefined;
  /** the id with its end filled in */
  readonly id: string;
  readonly at: string;
  readonly fill: (text: string) => string;
  readonly place: (path?: Path, key?: string) => Place;
}

/** Reports a problem at a place inside an entry. */
export type Report = (place: Place, code: ProblemCode, message: string, remedy: string) => void;

export function reporter(into: Problem[]): Report {
  return (place, code, message, remedy) => into.push({ ...place, code, severity: 'error', message, remedy });
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
  const layers = new Map<string, { pack: string; file: RuleFileOf; index: number; data: SourceOf<S> }>();
  for (const file of files) {
    const list = (file.rules[section] ?? []) as SourceOf<S>[];
    list.forEach((data, index) => {
      const first = layers.get(data.id);
      if (first !== undefined && first.pack === file.pack) {
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
      layers.set(data.id, { pack: file.pack, file, index, data: filled });
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
      const fill = (text: string): string => {
        const filled = once(text);
        return filled.includes('{') ? once(withFigures(filled)) : filled;
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
      out.push({ data, end, id, at: `${name}:${line}`, fill, place });
    }
  }
  return out;
}

/** Fills in {end} and {other}; a figure of the pack stands there by then, and any other placeholder, or one without an end, is a mistake worth telling. */
export function filler(
  end: End | undefined,
  place: (path?: Path) => Place,
  report: Report,
): (text: string) => string {
  return (text) =>
    text.replace(/\{([^{}]*)\}/g, (whole, name: string) => {
      if (end !== undefined && name === 'end') return end;
      if (end !== undefined && name === 'other') return end === 'front' ? 'rear' : 'front';
      report(
        place(),
        'bad-template',
        `${whole} has no meaning here.`,
        end === undefined && ['end', 'other'].includes(name)
          ? 'Add for: [front, rear], or write the end out.'
          : 'Use {end}, {other} or one of the figures of pack.yaml.',
      );
      return name;
    });
}

/** Source, status and place of an entry, as the compiled form keeps them. */
export function standing(e: Entry<{ source: Source; status: Standing['status'] }>): Standing {
  return { source: e.data.source, status: e.data.status, at: e.at };
}

/** The other words of an entry for an end with one rebound knob, filled in; nothing where it has none. */
export function oneKnobWords<T extends object>(
  words: Readonly<Record<string, string | undefined>> | undefined,
  fill: (text: string) => string,
  /** what the compiled form calls a key, where it is another name */
  names: Readonly<Record<string, string>> = {},
): { readonly oneKnob?: T } {
  if (words === undefined) return {};
  const filled = Object.entries(words).flatMap(([key, text]) =>
    text === undefined ? [] : [[names[key] ?? key, fill(text)] as const],
  );
  return { oneKnob: Object.fromEntries(filled) as T };
}

/** Fills in every text and key of plain data. */
export function fillDeep(value: unknown, fill: (text: string) => string): unknown {
  if (typeof value === 'string') return fill(value);
  if (Array.isArray(value)) return value.map((v) => fillDeep(v, fill));
  if (typeof value === 'object' && value !== null) {
    return Object.fromEntries(Object.entries(value).map(([k, v]) => [fill(k), fillDeep(v, fill)]));
  }
  return value;
}

export const bothEnds = (ends: readonly End[] | undefined): readonly (End | undefined)[] =>
  ends ?? [undefined];

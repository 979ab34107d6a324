/**
 * What is sound of a rule file whose form is wrong somewhere: its other entries, and of an entry what is right in it, so that the
 * ids that it names are looked up in the same breath. It is read for that alone, and never compiled into rules.
 */
import type * as z from 'zod';
import { isMap } from '../form/plain-data.ts';
import type { Parsed } from '../form/parse.ts';
import type { Problem } from '../form/problem.ts';
import { ruleFile, type RuleFile } from './schema/rule-file.ts';

export interface SoundPart {
  readonly rules: RuleFile;
  /** the file, whose places are still those of the entries as they stand there */
  readonly parsed: Parsed;
  /** ids of entries that nothing sound is left of, as they are written */
  readonly lost: readonly string[];
}

type Map = Record<string, unknown>;

/** An id that stands in is none of the rules, and nobody is told of it. */
const STAND_IN = 'stands-in';

/** Stands where an entry lacks what it needs: anything of the right form, for none of it is told of. */
const STANDS_IN: Readonly<Record<string, unknown>> = {
  ask: '-',
  plain: '-',
  help: '-',
  how: 'recall',
  minutes: 1,
  topic: 'any',
  'when-several': 'any',
  'points-to': {},
  'confusable-with': [{ id: STAND_IN, tell: '-' }],
  do: '-',
  'way-back': '-',
  feel: '-',
  cautions: [],
  text: '-',
  name: '-',
};
/** Without these nobody knows what else of the entry means. */
const NEEDED: readonly string[] = ['id', 'for', 'answers', 'directions'];

export function soundPart(parsed: Parsed): SoundPart {
  const rules: Map = {};
  const lost: string[] = [];
  /** section → where its entries stand in the file */
  const stand = new Map<string, number[]>();
  for (const [section, list] of Object.entries(isMap(parsed.data) ? parsed.data : {})) {
    const form = formOf(section);
    if (form === undefined || !Array.isArray(list)) continue;
    const kept: unknown[] = [];
    stand.set(section, []);
    list.forEach((entry: unknown, index) => {
      const sound = soundEntry(entry, form);
      if (sound === undefined) {
        if (isMap(entry) && typeof entry['id'] === 'string') lost.push(entry['id']);
        return;
      }
      kept.push(sound);
      stand.get(section)!.push(index);
    });
    rules[section] = kept;
  }
  const locate: Parsed['locate'] = (path, key) => {
    const [section, index, ...rest] = path;
    const at = typeof index === 'number' ? stand.get(String(section))?.[index] : undefined;
    return parsed.locate(at === undefined ? path : [section!, at, ...rest], key);
  };
  return { rules: rules as RuleFile, parsed: { ...parsed, locate }, lost };
}

/**
 * Of what was found beside mistakes of form, the ids that are surely wrong: all else may only follow from what could not be read.
 * @param lost as in `SoundPart`, of all files
 * @param shapes the mistakes of form
 */
export function surelyUnknown(
  found: readonly Problem[],
  lost: readonly string[],
  shapes: readonly Problem[],
): Problem[] {
  const stems = [...lost, STAND_IN].flatMap((id) =>
    id.includes('{end}') ? ['front', 'rear'].map((end) => id.replaceAll('{end}', end)) : [id],
  );
  const speaksOfLost = ({ message }: Problem): boolean =>
    stems.some((stem) => new RegExp(String.raw`(?<![\w.-])${escaped(stem)}(?![\w-])`).test(message));
  const stands = new Set(shapes.map(placeKey));
  return found.filter((one) => one.code === 'unknown-id' && !speaksOfLost(one) && !stands.has(placeKey(one)));
}

function placeKey({ file, line, col }: Problem): string {
  return `${file}:${line}:${col}`;
}

function escaped(text: string): string {
  return text.replaceAll(/[.*+?^${}()|[\]\\]/g, String.raw`\$&`);
}

/** The form of one entry of a section; undefined where there is no such section. */
function formOf(section: string): z.ZodType | undefined {
  if (!Object.hasOwn(ruleFile.shape, section)) return undefined;
  const list = (ruleFile.shape as Readonly<Record<string, z.ZodOptional<z.ZodArray<z.ZodType>>>>)[section]!;
  return list.unwrap().element;
}

function soundEntry(entry: unknown, form: z.ZodType): unknown {
  const read = form.safeParse(entry);
  if (read.success) return read.data;
  const { shape } = form as { readonly shape?: Readonly<Record<string, z.ZodType>> };
  if (shape === undefined || !isMap(entry)) return undefined;
  const draft = structuredClone(entry) as Map;
  for (const { path, code, ...more } of read.error.issues) {
    const [key, ...rest] = path;
    if (key === undefined) {
      if (code !== 'unrecognized_keys') return undefined;
      for (const one of (more as unknown as { readonly keys: readonly string[] }).keys) delete draft[one];
    } else if (NEEDED.includes(String(key)) || !mend(draft, String(key), rest, shape)) return undefined;
  }
  const again = form.safeParse(draft);
  return again.success ? again.data : undefined;
}

/** Takes out what is wrong at a key, or puts something in its place. @returns whether that can be done */
function mend(
  draft: Map,
  key: string,
  rest: readonly PropertyKey[],
  shape: Readonly<Record<string, z.ZodType>>,
): boolean {
  const [leaf] = rest.slice(-1);
  const holder = rest
    .slice(0, -1)
    .reduce<unknown>((at, step) => (isMap(at) ? at[String(step)] : undefined), draft[key]);
  if (leaf !== undefined && isMap(holder)) {
    delete (holder as Map)[String(leaf)];
    return true;
  }
  if (shape[key]?.safeParse(undefined).success === true) delete draft[key];
  else if (key === 'default') draft[key] = Object.keys(isMap(draft['answers']) ? draft['answers'] : {})[0];
  else if (Object.hasOwn(STANDS_IN, key)) draft[key] = STANDS_IN[key];
  else return false;
  return true;
}

/** Sentences about a change that was tried → what could stand under `tried:`, for confirmation. */
import type { End } from '../bike/sheet.ts';
import type { CompiledRules, Concept } from '../rulebase/compiled.ts';
import { endVocabulary } from './end-names.ts';
import { endOf, leftOver, mentionsIn, type Carried } from './ends.ts';
import { NUMBER_WORDS } from './language.ts';
import { buildIndex } from './phrase-index.ts';
import type { Hit, Scene } from './scene.ts';
import { statementsOf, type Token } from './tokens.ts';

/** One change that the words tell of; nothing of it counts before somebody confirms it. */
export interface TriedReading {
  /** the rider's words about the change */
  readonly text: string;
  readonly setting: string;
  /** absent where the words do not tell */
  readonly end?: End;
  readonly direction: 'more' | 'less' | 'open' | 'close';
  /** how far, with its unit, where a number was said */
  readonly by?: number;
  readonly unit?: string;
  readonly result: 'better' | 'same' | 'worse' | 'not-sure';
  readonly putBack: 'yes' | 'unknown';
  readonly confirmed: false;
  /** where its words stand in what was said, of the change and of its result; UTF-16 units */
  readonly spans: readonly (readonly [start: number, stop: number])[];
}

export interface TriedReader {
  /** @returns the changes that were told with what came of them, in the order of the text */
  read(text: string): TriedReading[];
}

/** Statements after a change in which its result may still be told. */
const RESULT_WITHIN = 3;

export function buildTriedReader(rules: Pick<CompiledRules, 'words' | 'concepts' | 'endNames'>): TriedReader {
  const ends = endVocabulary(rules.endNames);
  const { lexicon, vocabulary } = buildIndex({ ...rules, words: [] });
  const telling = <K extends keyof Concept['tells']>(key: K) =>
    rules.concepts.flatMap((c) =>
      c.tells[key] === undefined ? [] : [{ key: `<${c.id}>`, value: c.tells[key]! }],
    );
  const [settings, ways, units] = [telling('setting'), telling('way'), telling('unit')];
  const [results, backs] = [telling('result'), telling('putBack')];
  return {
    read(text) {
      const open: (Partial<TriedReading> & { at: number })[] = [];
      const done: TriedReading[] = [];
      let carried: Carried;
      statementsOf(text, ends).forEach((statement, at) => {
        const scene = lexicon.read(statement, vocabulary);
        const mentions = mentionsIn(scene.tokens);
        const changes = settingsIn(scene, settings, ways);
        for (const change of changes) {
          const where = endOf(scene.tokens, mentions, change.places, carried);
          const unit = found(scene, units, change.places)?.value;
          const by = unit === undefined ? undefined : amount(scene, units);
          open.push({
            at,
            text: said(text, scene.tokens, change.places),
            spans: [spanOf(scene.tokens, change.places)],
            setting: change.setting,
            direction: change.way,
            ...(where === 'front' || where === 'rear' ? { end: where } : {}),
            ...(unit === undefined || by === undefined ? {} : { unit, by }),
          });
        }
        const result = found(scene, results, [scene.tokens.length]);
        const putBack = found(scene, backs, [0]) === undefined ? 'unknown' : 'yes';
        if (result !== undefined) {
          const told = spanOf(scene.tokens, result.hit.places);
          for (const one of open.splice(0))
            if (at - one.at <= RESULT_WITHIN) done.push(whole(one, result.value, putBack, told));
        } else if (putBack === 'yes' && done.length > 0) {
          done.push({ ...done.pop()!, putBack });
        }
        carried = leftOver(mentions, carried);
      });
      return done;
    },
  };
}

function whole(
  { at: _, ...one }: Partial<TriedReading> & { at: number },
  result: TriedReading['result'],
  putBack: TriedReading['putBack'],
  told: TriedReading['spans'][number],
): TriedReading {
  return { ...(one as TriedReading), result, putBack, confirmed: false, spans: [...(one.spans ?? []), told] };
}

interface Told<V> {
  readonly key: string;
  readonly value: V;
}

/** Every setting that was named with a way in the same statement; the longest name counts. */
function settingsIn(
  scene: Scene,
  settings: readonly Told<string>[],
  ways: readonly Told<TriedReading['direction']>[],
): { setting: string; way: TriedReading['direction']; places: readonly number[] }[] {
  const named = settings
    .flatMap(({ key, value }) => (scene.hits.get(key) ?? []).map((hit) => ({ hit, value })))
    .sort((a, b) => b.hit.places.length - a.hit.places.length);
  const used = new Set<number>();
  const out: { setting: string; way: TriedReading['direction']; places: readonly number[] }[] = [];
  for (const { hit, value } of named) {
    if (hit.places.some((p) => used.has(p))) continue;
    for (const p of hit.places) used.add(p);
    const way = found(scene, ways, hit.places);
    if (way === undefined) continue;
    out.push({
      setting: value,
      way: way.value,
      places: [...hit.places, ...way.hit.places].sort((a, b) => a - b),
    });
  }
  return out.sort((a, b) => a.places[0]! - b.places[0]!);
}

/** The nearest of these concepts to some words; of two as near the longer one. */
function found<V>(
  scene: Scene,
  told: readonly Told<V>[],
  near: readonly number[],
): { value: V; hit: Hit } | undefined {
  let best: { value: V; hit: Hit; away: number } | undefined;
  for (const { key, value } of told) {
    for (const hit of scene.hits.get(key) ?? []) {
      if (hit.places.length === 0) continue;
      const away = Math.min(...hit.places.flatMap((p) => near.map((n) => Math.abs(n - p))));
      const longer = best !== undefined && hit.places.length > best.hit.places.length;
      if (best === undefined || longer || (hit.places.length === best.hit.places.length && away < best.away))
        best = { value, hit, away };
    }
  }
  return best;
}

/** The number right before a unit: "two clicks", "8 psi". */
function amount({ tokens, hits }: Scene, units: readonly Told<string>[]): number | undefined {
  for (const { key } of units) {
    for (const { places } of hits.get(key) ?? []) {
      const before = tokens[places[0]! - 1]?.word ?? '';
      const by = NUMBER_WORDS.get(before) ?? Number(before);
      if (before !== '' && Number.isFinite(by) && by > 0) return by;
    }
  }
  return undefined;
}

function said(text: string, tokens: readonly Token[], places: readonly number[]): string {
  return text
    .slice(tokens[places[0]!]!.start, tokens[places.at(-1)!]!.stop)
    .replaceAll(/[\p{C}\p{Z}]+/gu, ' ')
    .slice(0, 80);
}

function spanOf(tokens: readonly Token[], places: readonly number[]): readonly [number, number] {
  return [tokens[Math.min(...places)]!.start, tokens[Math.max(...places)]!.stop];
}

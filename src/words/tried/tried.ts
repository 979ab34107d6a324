/** Sentences about a change that was tried → what could stand under `tried:`, for confirmation. */
import type { End } from '../../bike/sheet.ts';
import type { CompiledRules } from '../../rulebase/compiled.ts';
import type { CompiledWords } from '../compiled-words.ts';
import { endVocabulary } from '../end-names.ts';
import { endOf, leftOver, mentionsIn, type Carried } from '../ends.ts';
import { NUMBER_WORDS } from '../language.ts';
import { buildIndex } from '../phrase-index.ts';
import type { Hit, Scene } from '../scene.ts';
import { statementsOf, type Statement, type Token } from '../tokens.ts';
import { compileWords } from '../words-text.ts';
import { resultTeller, type Came } from './results.ts';
import { nearest, settingTeller, tellersOf, toldIn, type Change } from './settings.ts';
import { isDenied, wishedFrom } from './wished.ts';

/** One change that the words tell of; nothing of it counts before somebody confirms it. */
export interface TriedReading {
  /** the rider's words about the change */
  readonly text: string;
  readonly setting: string;
  /** absent where the words do not tell */
  readonly end?: End;
  readonly direction: 'more' | 'less' | 'open' | 'close';
  /** how far, where a number was said */
  readonly by?: number;
  /** of that number, or else what alone the words can be counted in */
  readonly unit?: string;
  readonly result: 'better' | 'same' | 'worse' | 'not-sure';
  /** questions, without their end, that the result is said of, where the same change did something else too */
  readonly for?: readonly string[];
  /** the words of such a result */
  readonly said?: string;
  readonly putBack: 'yes' | 'unknown';
  readonly confirmed: false;
  /** where its words stand in what was said, of the change and of its result; UTF-16 units */
  readonly spans: readonly (readonly [start: number, stop: number])[];
}

/** A change that is only asked about: nobody has made it. */
export interface Wished extends Pick<TriedReading, 'text' | 'setting' | 'end' | 'direction' | 'spans'> {
  /** all of the statement that asks, safe to print, and where it stands; UTF-16 units */
  readonly asked: string;
  readonly of: readonly [start: number, stop: number];
}

/** A change that was made, and nobody says what came of it. */
export type Changed = Pick<TriedReading, 'text' | 'setting' | 'end' | 'direction' | 'spans'>;

export interface TriedReader {
  /** @returns the changes that are only thought of, in the order of the text */
  wishes(text: string): Wished[];
  /** @returns the changes that were told with what came of them, in the order of the text */
  read(text: string): TriedReading[];
  /** @returns the changes of which nothing more was told, in the order of the text */
  changed(text: string): Changed[];
}

/** A change whose result is not told yet. */
type Open = Partial<TriedReading> & Changed & { readonly at: number; readonly isDone: boolean };

/** Statements after a change in which its result may still be told. */
const RESULT_WITHIN = 3;

/** @param compiled of these very rules, where it was kept */
export function buildTriedReader(
  rules: Pick<CompiledRules, 'words' | 'concepts' | 'endNames' | 'onlyThought'>,
  compiled?: CompiledWords,
): TriedReader {
  const ends = endVocabulary(rules.endNames);
  const words = compiled ?? compileWords({ ...rules, words: [] });
  const { meanings } = words;
  const { lexicon, vocabulary } = buildIndex(rules.endNames, words);
  const settingsIn = settingTeller(meanings);
  const [units, backs] = [tellersOf(meanings, 'unit'), tellersOf(meanings, 'putBack')];
  const cameOf = resultTeller(meanings);
  /** what is done in a statement, and what is only thought of there */
  const changesIn = (scene: Scene, wished: number | undefined): { done: Change[]; wished: Change[] } => {
    if (wished === undefined) return { done: settingsIn(scene), wished: [] };
    const all = settingsIn(scene, wished);
    const isWished = ({ places }: Change): boolean => places.at(-1)! >= wished;
    return { done: all.filter((one) => !isWished(one)), wished: all.filter(isWished) };
  };
  return {
    wishes(text) {
      const out: Wished[] = [];
      let carried: Carried;
      wishedOf(statementsOf(text, ends), rules.onlyThought).forEach(({ statement, wished }) => {
        const scene = lexicon.read(statement, vocabulary);
        const mentions = mentionsIn(scene.tokens);
        for (const { places, setting, way } of changesIn(scene, wished).wished) {
          const where = endOf(scene.tokens, mentions, places, carried);
          out.push({
            text: wordsAt(text, scene.tokens, places),
            asked: wordsAt(text, scene.tokens, [0, scene.tokens.length - 1]),
            spans: [spanOf(scene.tokens, places)],
            of: spanOf(scene.tokens, [...scene.tokens.keys()]),
            setting,
            direction: way,
            ...(where === 'front' || where === 'rear' ? { end: where } : {}),
          });
        }
        carried = leftOver(mentions, carried);
      });
      return out;
    },
    read: (text) => told(text).done,
    changed: (text) => told(text).left,
  };

  function told(text: string): { done: TriedReading[]; left: Changed[] } {
    const open: Open[] = [];
    const done: TriedReading[] = [];
    const late: Open[] = [];
    // The changes whose result was told last, and how.
    let last: { at: number; came: Came; words: string; made: readonly number[] } | undefined;
    let carried: Carried;
    wishedOf(statementsOf(text, ends), rules.onlyThought).forEach(({ statement, wished }, at) => {
      const scene = lexicon.read(statement, vocabulary);
      const mentions = mentionsIn(scene.tokens);
      const changes = changesIn(scene, wished).done.filter(
        ({ places }) => !isDenied(scene.tokens, places[0]!),
      );
      for (const change of changes) {
        const where = endOf(scene.tokens, mentions, change.places, carried);
        const unit = nearest(toldIn(scene, units), change.places);
        const by = unit === undefined ? undefined : amount(text, scene, unit.hit);
        last = undefined;
        open.push({
          at,
          isDone: change.done,
          text: wordsAt(text, scene.tokens, change.places),
          spans: [spanOf(scene.tokens, change.places)],
          setting: change.setting,
          direction: change.way,
          ...(where === 'front' || where === 'rear' ? { end: where } : {}),
          ...(unit !== undefined && by !== undefined
            ? { unit: unit.value, by }
            : change.countedIn === undefined
              ? {}
              : { unit: change.countedIn }),
        });
      }
      const putBack = toldIn(scene, backs).length === 0 ? 'unknown' : 'yes';
      const results = cameOf(scene, statement.contrast ? last?.came.result : undefined);
      for (const came of results) {
        const told = came.places.length === 0 ? [] : [spanOf(scene.tokens, came.places)];
        const words = wordsAt(text, scene.tokens, [came.from, came.to]);
        const waiting = open.splice(0);
        const made = waiting.filter((one) => at - one.at <= RESULT_WITHIN);
        late.push(...waiting.filter((one) => !made.includes(one)));
        if (made.length > 0) {
          last = { at, came, words, made: made.map((_, i) => done.length + i) };
          done.push(...made.map((one) => whole(one, came.result, putBack, told)));
        } else if (last !== undefined && at - last.at <= RESULT_WITHIN && isOther(came, last.came)) {
          for (const i of last.made) {
            const one = done[i]!;
            done[i] = { ...one, ...inPart(last.came, last.words) };
            done.push({
              ...one,
              result: came.result,
              ...inPart(came, words),
              spans: [...one.spans, ...told],
            });
          }
          last = undefined;
        }
      }
      if (results.length === 0 && putBack === 'yes' && done.length > 0) {
        const { text: of } = done.at(-1)!;
        for (const [i, one] of done.entries()) if (one.text === of) done[i] = { ...one, putBack };
      }
      carried = leftOver(mentions, carried);
    });
    return { done, left: [...late, ...open].filter(({ isDone }) => isDone) };
  }
}

/** Every statement with the token from which on what stands in it is only thought of. */
function wishedOf(
  statements: readonly Statement[],
  cues: readonly string[],
): { readonly statement: Statement; readonly wished: number | undefined }[] {
  const out: { statement: Statement; wished: number | undefined }[] = [];
  for (const statement of statements) {
    out.push({ statement, wished: wishedFrom(statement, cues, out.at(-1)?.wished !== undefined) });
  }
  return out;
}

function whole(
  { at: _, isDone: __, ...one }: Open,
  result: TriedReading['result'],
  putBack: TriedReading['putBack'],
  told: TriedReading['spans'],
): TriedReading {
  return {
    ...one,
    result,
    putBack,
    confirmed: false,
    spans: [...one.spans, ...told],
  };
}

/** What is said of one thing only, and is not what was said of all: two results of one change. */
const isOther = (came: Came, before: Came): boolean => came.of.length > 0 && came.result !== before.result;

const inPart = ({ of }: Came, said: string): Pick<TriedReading, 'for' | 'said'> =>
  of.length === 0 ? {} : { for: of, said };

/**
 * The number right before a unit: "two clicks", "8 psi"; from one to another it is what lies between: "from 72 to 78 psi".
 * None of "1/2 turn", "half a turn" and "2-3 clicks": the last figure alone would be far off; nor of "up to 80 psi", which is where
 * it stands now.
 */
function amount(text: string, { tokens }: Scene, { places }: Hit): number | undefined {
  const numberAt = (at: number): number => {
    const word = tokens[at]?.word ?? '';
    return word === '' || isPiece(text, tokens, at) ? NaN : (NUMBER_WORDS.get(word) ?? Number(word));
  };
  const at = places[0]! - 1;
  const before = tokens[at - 1]?.word ?? '';
  const from = before === 'to' ? numberAt(at - 2) : NaN;
  if (STANDS_AT.has(before) && !Number.isFinite(from)) return undefined;
  const by = Number.isFinite(from) ? Math.abs(numberAt(at) - from) : numberAt(at);
  return Number.isFinite(by) && by > 0 ? by : undefined;
}

/** Whether a number is the end of another one, or what a part is taken of. */
function isPiece(text: string, tokens: readonly Token[], at: number): boolean {
  const before = tokens[at - 1];
  if (before === undefined) return false;
  const between = text.slice(before.stop, tokens[at]!.start);
  return (
    /^\s*[-–/⁄]\s*$/.test(between) ||
    tokens.slice(Math.max(0, at - 2), at).some(({ word }) => PARTS.has(word))
  );
}

const STANDS_AT = new Set(['to', 'at']);
const PARTS = new Set(['half', 'quarter', 'third', 'minus']);

function wordsAt(text: string, tokens: readonly Token[], places: readonly number[]): string {
  return text
    .slice(tokens[places[0]!]!.start, tokens[places.at(-1)!]!.stop)
    .replaceAll(/[\p{C}\p{Z}]+/gu, ' ')
    .slice(0, 80);
}

function spanOf(tokens: readonly Token[], places: readonly number[]): readonly [number, number] {
  return [tokens[Math.min(...places)]!.start, tokens[Math.max(...places)]!.stop];
}

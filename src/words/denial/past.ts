/** What was so before and is not any more: "it was choppy, now it is lovely", "I had it too firm. Went softer, fine now". */
import type { End } from '../../bike/sheet.ts';
import type { Meaning } from '../compiled-words.ts';
import { mentionsIn } from '../ends.ts';
import { ENDED_AFTER, ENDED_BEFORE, GOES_ON } from '../language.ts';
import type { Scene } from '../scene.ts';
import { NOT, type Statement, type Token } from '../tokens.ts';

/** Whether a sign is told of a time that is over, for the places of its words. */
type IsOver = (places: readonly number[]) => boolean;

/** @returns for a statement, by where it and its scene stand among all of the text, which of its signs are over */
export function buildPast(
  concepts: readonly Meaning[],
): (statements: readonly Statement[], scenes: readonly Scene[], at: number) => IsOver {
  const well = concepts.filter((c) => c.well).map(({ id }) => `<${id}>`);
  return (statements, scenes, at) => {
    const { tokens, sentence } = statements[at]!;
    const ends = endsSpokenOf(statements, at);
    const told = statements.flatMap(({ sentence: of }, i): (Scene & { readonly same: boolean })[] => {
      const tells = i > at && of <= sentence + 1 ? tellingOfNow(statements, i) : undefined;
      return tells === undefined || isOther(ends, endsIn(statements[tells]!.tokens))
        ? []
        : [{ ...scenes[tells]!, same: of === sentence }];
    });
    const isFine = (scene: Scene): boolean => isWell(scene, well);
    const cured = told.some((scene) => isFine(scene) && isShort(scene.tokens));
    const changed = told.some((scene) => scene.same && (isFine(scene) || takesBack(scene.tokens, tokens)));
    const from = changed || cured ? tokens.findIndex((_, i) => wasAt(tokens, i, cured)) : -1;
    return (places) => from >= 0 && places.at(-1)! > from;
  };
}

/** @returns where it is said how it is now: this statement, or the one behind a bare "now"; undefined: nothing is said of now */
function tellingOfNow(statements: readonly Statement[], at: number): number | undefined {
  const { tokens, sentence } = statements[at]!;
  if (tokens.every(({ word }) => word !== 'now')) return undefined;
  const alone = tokens.every(({ word, filler }) => filler || word === 'now');
  return alone && statements[at + 1]?.sentence === sentence ? at + 1 : at;
}

/** "Lovely", "no complaints", but not "not good". */
function isWell({ tokens, hits }: Scene, well: readonly string[]): boolean {
  const places = new Set(well.flatMap((key) => hits.get(key) ?? []).flatMap((hit) => hit.places));
  return places.size > 0 && tokens.every(({ stem }, i) => stem !== NOT || places.has(i));
}

/** "Fine now", "all sorted now": nothing else is said there. */
const isShort = (tokens: readonly Token[]): boolean => tokens.filter(({ filler }) => !filler).length <= 3;

/** "It doesn't", "it doesn't dive", "it has stopped", "it is gone": another thing that is denied ends nothing. */
function takesBack(now: readonly Token[], before: readonly Token[]): boolean {
  const at = now.findIndex(
    ({ stem, word }) => stem === NOT || ENDED_BEFORE.has(word) || ENDED_AFTER.has(word),
  );
  if (at < 0) return false;
  const after = now.slice(at + 1).filter(({ word, filler }) => !filler && !ANY_MORE.has(word));
  if (now[at]!.stem === NOT && after.some(({ word }) => GOES_ON.has(word) || ENDED_AFTER.has(word)))
    return false;
  return (
    after.length === 0 ||
    after.some(({ stem, end }) => end === undefined && before.some((b) => !b.filler && b.stem === stem))
  );
}

const endsIn = (tokens: readonly Token[]): ReadonlySet<End> =>
  new Set(
    mentionsIn(tokens).flatMap(({ ends, weak }) =>
      weak ? [] : ends === 'both' ? (['front', 'rear'] as const) : [ends],
    ),
  );

/** Those named there, or last before it in its sentence. */
function endsSpokenOf(statements: readonly Statement[], at: number): ReadonlySet<End> {
  const named = endsIn(statements[at]!.tokens);
  return named.size > 0 || statements[at - 1]?.sentence !== statements[at]!.sentence
    ? named
    : endsSpokenOf(statements, at - 1);
}

/** Whether ends are named now, and others than those spoken of. */
const isOther = (of: ReadonlySet<End>, now: ReadonlySet<End>): boolean =>
  now.size > 0 && (now.size !== of.size || [...now].some((end) => !of.has(end)));

/** Where a time before begins; "was serviced" and "had it rebuilt" tell what was done, and that stays done. */
function wasAt(tokens: readonly Token[], at: number, cured: boolean): boolean {
  const { word } = tokens[at]!;
  const next = tokens.slice(at + 1, at + 4);
  if (BECAUSE.has(word)) return next.some((t) => t.word.endsWith('ed'));
  const was = word === 'was' || word === 'were' || (cured && word === 'had');
  return was && !next.some((t) => t.word.endsWith('ed'));
}

const BECAUSE = new Set(['cos', 'because', 'cause', "'cause", 'coz']);
const ANY_MORE = new Set(['now', 'more', 'longer', 'all', 'anymore']);

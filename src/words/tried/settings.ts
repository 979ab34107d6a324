/** A statement → the settings that somebody changed in it, and which way: "opened the rebound two clicks". */
import type { Meaning } from '../compiled-words.ts';
import type { Hit, Scene } from '../scene.ts';

type Way = NonNullable<Meaning['tells']['way']>;

interface Teller<V> {
  readonly key: string;
  readonly value: V;
  readonly implied: boolean;
  readonly filled: boolean;
  readonly countedIn?: string;
}

export interface Told<V> extends Omit<Teller<V>, 'key'> {
  readonly hit: Hit;
}

export interface Change {
  readonly setting: string;
  readonly way: Way;
  /** tokens of the setting and of its way, in order */
  readonly places: readonly number[];
  /** a word of doing says so: "dropped 5 psi", and not only "5 psi less" */
  readonly done: boolean;
  /** what the words of the setting can only be counted in: "added air" */
  readonly countedIn?: string;
}

export function tellersOf<K extends keyof Meaning['tells']>(
  concepts: readonly Meaning[],
  kind: K,
): Teller<NonNullable<Meaning['tells'][K]>>[] {
  return concepts.flatMap(({ id, tells }) => {
    const { [kind]: value, implied = false, filled = false, countedIn } = tells;
    return value === undefined
      ? []
      : [
          {
            key: `<${id}>`,
            value: value!,
            implied,
            filled,
            ...(countedIn === undefined ? {} : { countedIn }),
          },
        ];
  });
}

/** Everything of a kind that fits and that a statement tells; what lies within something longer is a piece of that. */
export function toldIn<V>(
  { hits }: Scene,
  tellers: readonly Teller<V>[],
  fits: (one: Told<V>) => boolean = () => true,
): Told<V>[] {
  const all = tellers
    .flatMap(({ key, ...what }) => (hits.get(key) ?? []).map((hit) => ({ ...what, hit })))
    .filter((one) => one.hit.places.length > 0 && fits(one));
  return all.filter(
    ({ hit, implied }) =>
      !all.some(
        (other) =>
          other.hit.places.length > hit.places.length &&
          (implied || !other.implied) &&
          hit.places.every((p) => other.hit.places.includes(p)),
      ),
  );
}

/** Of these the one that stands nearest to some words; of two as near the longer one. */
export function nearest<V>(told: readonly Told<V>[], near: readonly number[]): Told<V> | undefined {
  const away = ({ hit }: Told<V>): number =>
    Math.min(...hit.places.flatMap((p) => near.map((n) => Math.abs(n - p))));
  return [...told].sort((a, b) => away(a) - away(b) || b.hit.places.length - a.hit.places.length)[0];
}

/**
 * @returns for a statement, every setting that was named with a way, in order; the longest name counts. Behind `bare` a word of
 * doing may stand as it is in the dictionary: "should I open it".
 */
export function settingTeller(concepts: readonly Meaning[]): (scene: Scene, bare?: number) => Change[] {
  const settings = tellersOf(concepts, 'setting');
  const ways = tellersOf(concepts, 'way');
  const results = tellersOf(concepts, 'result');
  return (scene, bare = Infinity) => {
    const partOf = ({ hit }: Told<unknown>): number => scene.tokens[hit.places[0]!]!.part;
    const whole = inOnePart(scene);
    const turned = toldIn(scene, ways, (way) => whole(way) && isClose(way));
    // Who slowed the compression touched no "slow compression".
    const did = new Set(turned.filter(isDone(scene, bare)).map(({ hit }) => hit.places[0]));
    const named = namedIn(
      toldIn(scene, settings, (one) => whole(one) && !one.hit.places.some((p) => did.has(p))),
      partOf,
    );
    const parts = new Set(named.map(partOf));
    const wayOf = wayTeller(scene, turned, toldIn(scene, results), { parts, bare });
    const used = new Set<number>();
    const out: (Change & { by: Hit; part: number })[] = [];
    for (const one of named) {
      const { hit, value, filled, countedIn } = one;
      if (hit.places.some((p) => used.has(p))) continue;
      for (const p of hit.places) used.add(p);
      const way = wayOf(hit.places);
      const part = partOf(one);
      // "5 psi of air pressure" is one change, under two names.
      const again = out.some((o) => o.setting === value && o.part === part && o.by === way?.hit);
      if (way === undefined || again) continue;
      out.push({
        setting: value,
        way: filled ? (FILLING.get(way.value) ?? way.value) : way.value,
        places: [...new Set([...hit.places, ...way.hit.places])].sort((a, b) => a - b),
        done: !way.implied,
        ...(countedIn === undefined ? {} : { countedIn }),
        by: way.hit,
        part,
      });
    }
    return out.map(({ by: _, part: __, ...change }) => change).sort((a, b) => a.places[0]! - b.places[0]!);
  };
}

/** What is taken out of a spring is less of it. */
const FILLING: ReadonlyMap<Way, Way> = new Map([
  ['open', 'less'],
  ['close', 'more'],
]);

/** The longest names first; one that is only implied where its part names none like it: psi of the tyre are no spring. */
function namedIn<V>(all: readonly Told<V>[], partOf: (one: Told<V>) => number): Told<V>[] {
  const plain = all.filter(({ implied }) => !implied);
  return all
    .filter((one) => !one.implied || !plain.some((p) => partOf(p) === partOf(one) && p.filled === one.filled))
    .sort((a, b) => b.hit.places.length - a.hit.places.length);
}

/** Every word of it stands in one part of the statement. */
const inOnePart =
  ({ tokens }: Scene) =>
  ({ hit: { places } }: Told<unknown>): boolean =>
    tokens[places[0]!]!.part === tokens[places.at(-1)!]!.part;

/** "Clicks in" stand side by side, as in "2 clicks better in roots" they do not. */
const isClose = ({ hit: { places }, implied }: Told<unknown>): boolean =>
  !implied || places.at(-1)! - places[0]! === places.length - 1;

/** A word of doing; "slow" and "open" alone may as well say how it is. */
const isDone =
  ({ tokens }: Scene, bare: number) =>
  ({ hit: { places }, implied }: Told<Way>): boolean => {
    const { word, stem } = tokens[places[0]!]!;
    return !implied && (places.length > 1 || word !== stem || places[0]! > bare);
  };

/**
 * The way a setting was turned stands in its own part and before what came of it; what somebody did goes before a small
 * word. It is told in another part where that says it of the setting, "and opened it two clicks", or of another setting
 * before, "opened the rebound and the compression". A bare "open" is something done only where it begins a note.
 */
function wayTeller(
  scene: Scene,
  ways: readonly Told<Way>[],
  results: readonly Told<unknown>[],
  { parts, bare }: { readonly parts: ReadonlySet<number>; readonly bare: number },
): (setting: readonly number[]) => Told<Way> | undefined {
  const { tokens } = scene;
  const at = ({ hit }: Told<unknown>): number => hit.places[0]!;
  const partOf = (told: Told<unknown>): number => tokens[at(told)]!.part;
  const ofIt = (way: Told<Way>): boolean => IT.has(tokens[at(way) + 1]?.word ?? '');
  const small = ways.filter((way) => way.implied);
  const done = ways.filter(isDone(scene, bare));
  const noted = ways.filter((way) => !way.implied && !done.includes(way) && at(way) === 0);
  return (setting) => {
    const from = setting[0]!;
    const { part } = tokens[from]!;
    const before = (way: Told<Way>): boolean => !results.some((r) => at(r) > from && at(r) < at(way));
    const own = (way: Told<Way>): boolean => partOf(way) === part && before(way);
    const saidOfIt = (way: Told<Way>): boolean => ofIt(way) && before(way);
    const shared = (way: Told<Way>): boolean => partOf(way) < part && parts.has(partOf(way));
    return [
      done.filter(own),
      small.filter(own),
      done.filter(saidOfIt),
      noted.filter((way) => own(way) && !setting.includes(at(way))),
      done.filter(shared),
      [...small, ...noted].filter(shared),
    ]
      .map((told) => nearest(told, setting))
      .find((way) => way !== undefined);
  };
}

/** After a word of doing: the setting that was named in another part. */
const IT = new Set(['it', 'them', 'that']);

/** What packs say once for all their rules: numbers, figures and sentences, a later pack over an earlier one. */
import type { Band } from '../bike/gauge/gauge.ts';
import { siPer } from '../bike/units.ts';
import type { Parsed } from '../form/parse.ts';
import { defined } from '../form/plain-data.ts';
import type { Place } from '../form/problem.ts';
import { didYouMean } from '../form/suggest.ts';
import type { CompiledRules } from './compiled.ts';
import type { RuleFileOf } from './entries.ts';
import type { Report } from './look-up.ts';
import type { Numbers } from './numbers-schema.ts';
import { NEAR, type PackFile, type RideRules } from './schema/pack.ts';

export interface PackSource {
  readonly pack: PackFile;
  readonly packParsed: Parsed;
  readonly files: readonly RuleFileOf[];
}

const NO_RULES: RideRules = { first: [], helped: [], alone: [], last: [], brief: [] };
const NEEDED = [
  'causes-at-once',
  'expected-causes',
  'trust',
  'slip',
  'one-story',
  'sure',
  'asking',
  'fit',
  'advice',
  'sheet',
  'results',
  'trial',
] as const;
/** Of a pack that says nothing of it. */
const UNSAID = {
  'causes-at-once': 1,
  'expected-causes': 1,
  tried: {
    doubt: 0.25,
    lasts: 0.25,
    upsets: 0.06,
    'still-on': { better: 0.9, same: 0.4, worse: 0.2, 'not-sure': 0.5 },
  },
  none: { prior: 0, signs: 0 },
  'one-impression': { prior: 0, bound: 0, of: '' },
  following: { prior: 0, share: 0 },
  rider: { spread: 0, from: 3, least: 0, stays: 0 },
};

type Maps = 'figures' | 'number-examples' | 'numbers' | 'reasons' | 'sheet-asks';

/** The maps of all packs in one, key by key. */
export function merged<K extends Maps>(packs: readonly PackSource[], key: K): NonNullable<PackFile[K]> {
  return Object.assign({}, ...packs.map(({ pack }) => pack[key] ?? {})) as NonNullable<PackFile[K]>;
}

/** The sentences and figures of the packs, as the compiled rules hold them. */
export function sentencesOf(packs: readonly PackSource[]) {
  const last = <K extends keyof PackFile>(key: K): PackFile[K] | undefined =>
    packs.findLast(({ pack }) => pack[key] !== undefined)?.pack[key];
  const checks = packs.map(({ pack }) => pack['sheet-check']);
  return defined<
    Pick<CompiledRules, 'onlyThought' | 'rideRules' | 'sheetAsks' | 'reasons' | 'sheetCheck' | 'feelings'> &
      Pick<CompiledRules, 'againstTest' | 'leftAlone' | 'offTarget' | 'usualNote'>
  >({
    onlyThought: packs.flatMap(({ pack }) => pack['only-thought'] ?? []),
    rideRules: last('ride-rules') ?? NO_RULES,
    sheetAsks: merged(packs, 'sheet-asks'),
    reasons: merged(packs, 'reasons'),
    sheetCheck: {
      near: Object.assign({}, NEAR, ...checks.map((check) => check?.near ?? {})),
      todo: Object.assign({}, ...checks.map((check) => check?.todo ?? {})),
    },
    feelings: last('feelings') ?? [],
    againstTest: last('against-test'),
    leftAlone: last('left-alone'),
    offTarget: last('off-target'),
    usualNote: last('usual-note'),
  });
}

/** The trade figures: as the text that stands for `{name}`, and as numbers, SI or shares, where they are written so. */
export function figuresOf(packs: readonly PackSource[]): {
  readonly texts: ReadonlyMap<string, string>;
  readonly bands: ReadonlyMap<string, Band>;
} {
  const texts = new Map<string, string>();
  const bands = new Map<string, Band>();
  for (const [name, one] of Object.entries(merged(packs, 'figures'))) {
    texts.set(name, typeof one === 'string' ? one : `${one.from} to ${one.to} ${one.unit}`);
    if (typeof one === 'string') continue;
    const si = one.unit === '%' ? 0.01 : siPer(one.unit);
    bands.set(name, [one.from * si, one.to * si]);
  }
  return { texts, bands };
}

export function wordScale(packs: readonly PackSource[]): Record<string, number> {
  const words = packs.flatMap(({ pack }) => Object.entries(pack['word-scale']?.percent ?? {}));
  return Object.fromEntries(words.map(([word, percent]) => [word, percent / 100]));
}

/** A frequency word → its probability; an unknown word is reported where it stands. */
export function frequencies(scale: Readonly<Record<string, number>>, report: Report) {
  return (text: string, place: Place): number => {
    if (Object.hasOwn(scale, text)) return scale[text]!;
    const words = Object.keys(scale);
    const remedy = didYouMean(text, words) || `Use one of: ${words.join(', ')}.`;
    report(place, 'unknown-word', `${text} is not a word of the scale.`, remedy);
    return 0.5;
  };
}

export function layeredNumbers(packs: readonly PackSource[], report: Report): Numbers {
  const numbers = merged(packs, 'numbers');
  const place = packs[0]!.packParsed.locate(['numbers']);
  for (const key of NEEDED)
    if (numbers[key] === undefined)
      report(place, 'shape', `pack.yaml: numbers › ${key} is missing.`, `Add ${key}: under numbers:.`);
  return { ...UNSAID, ...numbers } as Numbers;
}

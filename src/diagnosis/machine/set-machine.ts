/**
 * The loops over all sets as machine code, for spaces so large that it matters. A start runs most of a loop before the engine
 * has compiled it; this is fast at once. Every loop is written in TypeScript too, which says what it does and stands in where
 * there is no such code; both give the same bits, which a test holds.
 */
import { codeIn } from '../../physics/machine/load.ts';
import { bytes } from './bytes.ts';

interface Exports {
  readonly memory: { readonly buffer: ArrayBuffer; grow(pages: number): number };
  begin(counts: number, numbers: number): void;
  timesFactor(): void;
  timesRest(count: number): void;
  scale(by: number): void;
  walk(): void;
  marginals(): number;
}

/** What the loops work in and read; all belongs to one space. */
export interface SetLists {
  /** the weight of every set */
  readonly work: Float64Array<ArrayBuffer>;
  /** for each cause, what it multiplies a set's weight by */
  readonly each: Float64Array<ArrayBuffer>;
  /** [cause × cause] the same for a pair, the lower cause first; a last row of ones stands for no lower cause */
  readonly both: Float64Array<ArrayBuffer>;
  /** [inner set × cause] each, times both with every cause of that set */
  readonly rows: Float64Array<ArrayBuffer>;
  /** for each inner set, the product over its causes and pairs */
  readonly product: Float64Array<ArrayBuffer>;
  /** for each inner set, the weight of the sets that extend it, itself included */
  readonly sum: Float64Array<ArrayBuffer>;
  /** for each set one below full, the product over its causes and pairs */
  readonly base: Float64Array<ArrayBuffer>;
  /** for each cause, and in the last place for none, the weight of the sets that hold it */
  readonly sums: Float64Array<ArrayBuffer>;
  /** class of every set and factor of every class, of a group looked up set by set */
  readonly classOf: Int32Array<ArrayBuffer>;
  readonly factor: Float64Array<ArrayBuffer>;
  /** for every set, what its extensions pass on; in machine code only */
  readonly passed: Float64Array<ArrayBuffer>;
}

/** Of a space, what is only read. */
export interface SetPlaces {
  readonly parent: Int32Array;
  readonly last: Int16Array;
  readonly inner: Int32Array;
  readonly innerOf: Int32Array;
  readonly tops: Int32Array;
  readonly topLast: Int16Array;
  /** where the sets one below full begin that extend each inner set, and where the last ones end */
  readonly topsFrom: Int32Array;
  readonly stretches: Int32Array;
}

/** The loops; they work in the lists they were made with. */
export type SetCode = Omit<Exports, 'memory' | 'begin'>;

const PAGE = 65_536; // bytes
/** The compiler keeps the first bytes for itself. */
const FROM = 1024;
/** Sets from which on machine code is worth having. */
const WORTH = 2000;
/** Numbers of a stretch, as `fast/weigh.ts` lays them out. */
const STRETCH = 8;

let make: (() => Exports) | undefined;
let asked = false;
let without = false;

/** What is made in `work` is made without machine code, for comparing. */
export function withoutSetMachine<T>(work: () => T): T {
  without = true;
  try {
    return work();
  } finally {
    without = false;
  }
}

/**
 * Lists as long as those given, and the loops over them; undefined where there is no machine code, or it is not worth having.
 * @param sizes how many sets and causes there are
 */
export function setMachine(
  { size, causes: n }: { readonly size: number; readonly causes: number },
  places: SetPlaces,
): { readonly lists: SetLists; readonly code: SetCode } | undefined {
  if (without || size < WORTH) return undefined;
  if (!asked) {
    asked = true;
    make = codeIn<Exports>(bytes, {});
  }
  if (make === undefined) return undefined;
  const code = make();
  const inner = Math.max(1, places.inner.length);
  const tops = places.tops.length;
  const lengths = [size, n, (n + 1) * n, inner * n, inner, inner, Math.max(1, tops), n + 1, size, size];
  const { parent, last, innerOf, topLast, topsFrom, stretches } = places;
  const read = [parent, last, places.inner, innerOf, places.tops, topLast, topsFrom, stretches];
  let next = FROM;
  const take = (bytesLong: number): number => {
    const at = next;
    next += (bytesLong + 7) & ~7;
    return at;
  };
  const counts = take(8 * 4);
  const numbers = take(32 * 4);
  const pointers = lengths.map((length) => take(8 * length));
  pointers.push(take(4 * size));
  const placed = read.map((list) => take(list.byteLength));
  const missing = next - code.memory.buffer.byteLength;
  if (missing > 0) code.memory.grow(Math.ceil(missing / PAGE));
  const { buffer } = code.memory;
  for (const [i, list] of read.entries()) {
    const bytesOf = new Uint8Array(list.buffer, list.byteOffset, list.byteLength);
    new Uint8Array(buffer, placed[i]!, list.byteLength).set(bytesOf);
  }
  new Int32Array(buffer, counts, 5).set([
    size,
    n,
    places.inner.length,
    tops,
    places.stretches.length / STRETCH,
  ]);
  new Int32Array(buffer, numbers, pointers.length + placed.length).set([...pointers, ...placed]);
  code.begin(counts, numbers);
  const list = (i: number): Float64Array<ArrayBuffer> => new Float64Array(buffer, pointers[i], lengths[i]);
  return {
    lists: {
      work: list(0),
      each: list(1),
      both: list(2),
      rows: list(3),
      product: list(4),
      sum: list(5),
      base: list(6),
      sums: list(7),
      factor: list(8),
      passed: list(9),
      classOf: new Int32Array(buffer, pointers[10], size),
    },
    code,
  };
}

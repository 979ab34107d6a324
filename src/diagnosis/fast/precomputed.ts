/**
 * Numbers that follow from the rules alone, worked out once when the rules are compiled and read back at every start.
 * A process that does one case runs this arithmetic before the engine has compiled it, so it would cost more than the
 * case itself.
 */

export type Numbers = Float64Array | Int32Array | Int16Array | Uint8Array;
/** an object whose every value is such an array */
export type Named<T> = { readonly [K in keyof T]: Numbers };
export type NamedNumbers = Readonly<Record<string, Numbers>>;

/** The numbers kept under this name; where none are, those just made. The name must say all that they depend on. */
export type Keep = <T extends Named<T>>(name: string, make: () => T) => T;

export const keepNothing: Keep = (_, make) => make();

/** Makes everything, and remembers it. */
export function recordInto(all: Map<string, NamedNumbers>): Keep {
  return (name, make) => {
    const made = make();
    all.set(name, { ...made } as NamedNumbers);
    return made;
  };
}

/** Numbers that were kept, read name by name. */
export interface Kept {
  readonly names: readonly string[];
  /** undefined where none are kept, or where they cannot be read any more */
  get(name: string): NamedNumbers | undefined;
}

/**
 * @param kept asked for when the first name is
 * @param made is told what was not there and had to be made
 */
export function keepFrom(kept: () => Kept | undefined, made?: Map<string, NamedNumbers>): Keep {
  return <T extends Named<T>>(name: string, make: () => T): T => {
    const found = kept()?.get(name) ?? made?.get(name);
    if (found !== undefined) return found as T;
    const fresh = make();
    made?.set(name, { ...fresh } as NamedNumbers);
    return fresh;
  };
}

const KINDS = { f8: Float64Array, i4: Int32Array, i2: Int16Array, u1: Uint8Array } as const;
type Kind = keyof typeof KINDS;
interface Head {
  readonly stamp: string;
  /** length of what follows the head */
  readonly bytes: number;
  /** what arrays a name has, in their order; many names have the same */
  readonly shapes: readonly (readonly (readonly [key: string, kind: Kind])[])[];
  /** all names in order: a list, because an object with a thousand keys is dear to read */
  readonly names: readonly string[];
  /** for each name its shape, where its first array begins in bytes after the head, and the length of each */
  readonly places: readonly (readonly number[])[];
  /** where the columns of the next question begin */
  readonly together: number;
}

/** The columns of the next question: a case that asks for more than a few of them needs nearly all. */
const isTogether = (name: string): boolean => name.startsWith('fresh/');
const FEW = 4;

const ALIGN = 8;
const aligned = (bytes: number): number => Math.ceil(bytes / ALIGN) * ALIGN;

/**
 * One block of bytes: the length of the head, the head as JSON, the arrays in the machine's order of bytes.
 * @param stamp what must be the same when it is read back
 */
export function toBytes(stamp: string, all: ReadonlyMap<string, NamedNumbers>): Uint8Array {
  const shapes = new Map<string, number>();
  const places = new Map<string, readonly number[]>();
  let together: number | undefined;
  const placed: (readonly [number, Numbers])[] = [];
  let end = 0;
  // What is read together lies together.
  for (const [name, arrays] of [...all].sort(([a], [b]) => Number(isTogether(a)) - Number(isTogether(b)))) {
    const shape = JSON.stringify(Object.entries(arrays).map(([key, array]) => [key, kindOf(array)]));
    if (!shapes.has(shape)) shapes.set(shape, shapes.size);
    if (isTogether(name)) together ??= end;
    places.set(name, [shapes.get(shape)!, end, ...Object.values(arrays).map((array) => array.length)]);
    for (const array of Object.values(arrays)) {
      placed.push([end, array]);
      end = aligned(end + array.byteLength);
    }
  }
  const known = [...shapes.keys()].map((shape) => JSON.parse(shape) as Head['shapes'][number]);
  const names = [...places.keys()].sort();
  const head = new TextEncoder().encode(
    JSON.stringify({
      stamp,
      bytes: end,
      shapes: known,
      names,
      places: names.map((name) => places.get(name)!),
      together: together ?? end,
    } satisfies Head),
  );
  const start = aligned(4 + head.length);
  const out = new Uint8Array(start + end);
  new DataView(out.buffer).setUint32(0, head.length, true);
  out.set(head, 4);
  for (const [at, array] of placed)
    out.set(new Uint8Array(array.buffer, array.byteOffset, array.byteLength), start + at);
  return out;
}

/**
 * Reads such a block; undefined when it is torn, of other rules, or of another kind of machine.
 * @param bytes how long the block is
 * @param read some of its bytes, beginning at a multiple of eight in their own buffer; undefined where it cannot
 */
export function openKept(
  stamp: string,
  bytes: number,
  read: (from: number, length: number) => Uint8Array<ArrayBuffer> | undefined,
): Kept | undefined {
  const littleEndian = new Uint8Array(new Uint16Array([1]).buffer)[0] === 1;
  const first = littleEndian && bytes >= 4 ? read(0, 4) : undefined;
  if (first === undefined) return undefined;
  const length = new DataView(first.buffer, first.byteOffset).getUint32(0, true);
  const text = 4 + length > bytes ? undefined : read(0, 4 + length);
  if (text === undefined) return undefined;
  const { stamp: made, bytes: after, shapes, names, places, together: from } = headIn(text.subarray(4));
  const start = aligned(4 + length);
  // A block of another build may have the same stamp and another form.
  if (made !== stamp || start + after !== bytes || !Array.isArray(names)) return undefined;
  let together: Uint8Array<ArrayBuffer> | undefined;
  let alone = 0;
  return {
    names,
    get(name) {
      const place = places[placeOf(names, name)];
      if (place === undefined) return undefined;
      const shape = shapes[place[0]!]!;
      const out: Record<string, Numbers> = {};
      let block: Uint8Array<ArrayBuffer> | undefined;
      let at = 0;
      if (isTogether(name) && (together !== undefined || ++alone > FEW)) {
        together ??= read(start + from, after - from);
        block = together;
        at = place[1]! - from;
      } else {
        let end = 0;
        for (let i = 0; i < shape.length; i++) end = aligned(end + place[i + 2]! * bytesOf(shape[i]![1]));
        block = read(start + place[1]!, end);
      }
      if (block === undefined) return undefined;
      at += block.byteOffset;
      for (let i = 0; i < shape.length; i++) {
        const [key, kind] = shape[i]!;
        const count = place[i + 2]!;
        out[key] = view(kind, block.buffer, at, count);
        at += aligned(count * bytesOf(kind));
      }
      return out;
    },
  };
}

/** Where a name stands in a list in order; -1 where it does not. */
function placeOf(names: readonly string[], name: string): number {
  let low = 0;
  let high = names.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (names[middle]! < name) low = middle + 1;
    else high = middle;
  }
  return names[low] === name ? low : -1;
}

function bytesOf(kind: Kind): number {
  return kind === 'f8' ? 8 : kind === 'i4' ? 4 : kind === 'i2' ? 2 : 1;
}

/** Written out, because a constructor that is looked up is dear to compile for an engine that finds it often used. */
function view(kind: Kind, block: ArrayBuffer, from: number, count: number): Numbers {
  if (kind === 'f8') return new Float64Array(block, from, count);
  if (kind === 'i4') return new Int32Array(block, from, count);
  if (kind === 'i2') return new Int16Array(block, from, count);
  return new Uint8Array(block, from, count);
}

function headIn(text: Uint8Array): Head {
  return JSON.parse(new TextDecoder().decode(text)) as Head;
}

/** The same of a block at hand. */
export function fromBytes(stamp: string, block: Uint8Array<ArrayBuffer>): Kept | undefined {
  if (block.byteOffset % ALIGN !== 0) return undefined;
  return openKept(stamp, block.byteLength, (from, length) => block.subarray(from, from + length));
}

function kindOf(array: Numbers): Kind {
  return (Object.keys(KINDS) as Kind[]).find((kind) => array instanceof KINDS[kind])!;
}

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

const KINDS = { f8: Float64Array, i4: Int32Array, i2: Int16Array, u1: Uint8Array } as const;
type Kind = keyof typeof KINDS;
/** name → its arrays, each with kind, place in bytes after the head, and length */
type Contents = Readonly<Record<string, Readonly<Record<string, readonly [Kind, number, number]>>>>;
interface Head {
  readonly stamp: string;
  /** length of what follows the head */
  readonly bytes: number;
  readonly contents: Contents;
}

const ALIGN = 8;
const aligned = (bytes: number): number => Math.ceil(bytes / ALIGN) * ALIGN;

/**
 * One block of bytes: the length of the head, the head as JSON, the arrays in the machine's order of bytes.
 * @param stamp what must be the same when it is read back
 */
export function toBytes(stamp: string, all: ReadonlyMap<string, NamedNumbers>): Uint8Array {
  const contents: Record<string, Record<string, readonly [Kind, number, number]>> = {};
  const placed: (readonly [number, Numbers])[] = [];
  let end = 0;
  for (const [name, arrays] of all) {
    const places: Record<string, readonly [Kind, number, number]> = {};
    for (const [key, array] of Object.entries(arrays)) {
      places[key] = [kindOf(array), end, array.length];
      placed.push([end, array]);
      end = aligned(end + array.byteLength);
    }
    contents[name] = places;
  }
  const head = new TextEncoder().encode(JSON.stringify({ stamp, bytes: end, contents } satisfies Head));
  const start = aligned(4 + head.length);
  const out = new Uint8Array(start + end);
  new DataView(out.buffer).setUint32(0, head.length, true);
  out.set(head, 4);
  for (const [at, array] of placed)
    out.set(new Uint8Array(array.buffer, array.byteOffset, array.byteLength), start + at);
  return out;
}

/** Reads such a block; undefined when it is torn, of other rules, or of another kind of machine. */
export function fromBytes(stamp: string, block: Uint8Array<ArrayBuffer>): Keep | undefined {
  const littleEndian = new Uint8Array(new Uint16Array([1]).buffer)[0] === 1;
  if (!littleEndian || block.byteLength < 4 || block.byteOffset % ALIGN !== 0) return undefined;
  const length = new DataView(block.buffer, block.byteOffset).getUint32(0, true);
  if (4 + length > block.byteLength) return undefined;
  const head = JSON.parse(new TextDecoder().decode(block.subarray(4, 4 + length))) as Head;
  const start = aligned(4 + length);
  if (head.stamp !== stamp || start + head.bytes !== block.byteLength) return undefined;
  return <T extends Named<T>>(name: string, make: () => T): T => {
    if (!Object.hasOwn(head.contents, name)) return make();
    const views = Object.entries(head.contents[name]!).map(([key, [kind, from, count]]) => [
      key,
      new KINDS[kind](block.buffer, block.byteOffset + start + from, count),
    ]);
    return Object.fromEntries(views) as T;
  };
}

function kindOf(array: Numbers): Kind {
  return (Object.keys(KINDS) as Kind[]).find((kind) => array instanceof KINDS[kind])!;
}

/** Loops over lists of numbers, and where these lie: in the memory of a program in machine code, or as they are. */
import { FROM, PAGE, type Memory } from './engine.ts';

export type List = Float64Array | Int32Array;

/** A list that was placed, as the loops take it. */
export interface Placed {
  readonly placed: unique symbol;
}

type Taken<Given extends readonly unknown[]> = {
  [K in keyof Given]: Given[K] extends List ? Placed : Given[K];
};

/** The loops, which take placed lists. */
export type CodeOf<Loops> = {
  readonly [Name in keyof Loops]: Loops[Name] extends (...given: infer Given) => infer Result
    ? (...given: Taken<Given>) => Result
    : never;
};

export interface Machine<Code> {
  readonly code: Code;
  /**
   * Copies lists to where the loops work, and after them leaves room for lists of so many numbers, in which anything may
   * stand; what was placed before is gone. Lists that lie there already, as what is held or settled does, stay where they are.
   * Returns each as the loops take it.
   */
  place<const Lists extends readonly List[], const Rooms extends readonly number[]>(
    lists: Lists,
    ...rooms: Rooms
  ): readonly [...{ [K in keyof Lists]: Placed }, ...{ [K in keyof Rooms]: Placed }];
  /** Room for so many numbers that `place` leaves alone, good until it is asked for anew; anything may stand in it. */
  hold(length: number): Placed;
  /**
   * Says of a list that nobody changes it, and that it may be placed again and again: from the second time on it is copied once
   * for good, while there is room for such. What is placed once only needs no room of its own.
   */
  settle(list: List): void;
  /** What stands in a list that was placed, from one of its numbers on; good until others are placed. */
  read(list: Placed, length: number, from?: number): Float64Array<ArrayBuffer>;
}

/** The loops as they stand in the sources: what does them where there is no machine code. */
export function plainMachine<Code>(loops: object): Machine<Code> {
  return {
    code: loops as Code,
    place: (lists, ...rooms) =>
      [...lists.map((list) => list.slice()), ...rooms.map((length) => new Float64Array(length))] as never,
    hold: (length) => new Float64Array(length) as unknown as Placed,
    settle: () => undefined,
    read: (list, length, from = 0) =>
      (list as unknown as Float64Array<ArrayBuffer>).subarray(from, from + length),
  };
}

/** Bytes of what is settled. */
const MOST_SETTLED = 24e6;

const aligned = (bytes: number): number => (bytes + 7) & ~7;

/** A placed list is the byte at which it begins in the memory. */
export function compiledMachine<Code>(code: Code & Memory): Machine<Code> {
  let numbers = new Float64Array(code.memory.buffer);
  let counts = new Int32Array(code.memory.buffer);
  /** where what stays ends, in bytes */
  let base = FROM;
  const reach = (end: number): void => {
    const missing = end - 8 * numbers.length;
    if (missing <= 0) return;
    code.memory.grow(Math.ceil(missing / PAGE));
    numbers = new Float64Array(code.memory.buffer);
    counts = new Int32Array(code.memory.buffer);
  };
  const put = (list: List, at: number): void => {
    if (list instanceof Float64Array) numbers.set(list, at / 8);
    else counts.set(list, at / 4);
  };
  /** where each lies; -1: asked for once */
  const settled = new WeakMap<List, number>();
  let held = { at: FROM, length: 0 };
  return {
    code,
    place(lists, ...rooms) {
      const pointers: number[] = [];
      const moved: List[] = [];
      const memory = numbers.buffer;
      let next = base;
      for (let i = 0; i < lists.length; i++) {
        const list = lists[i]!;
        const lies = list.buffer === memory ? list.byteOffset : (settled.get(list) ?? -1);
        pointers.push(lies < 0 ? next : lies);
        if (lies >= 0) continue;
        moved.push(list);
        next = aligned(next + list.byteLength);
      }
      for (let i = 0; i < rooms.length; i++) {
        pointers.push(next);
        next += 8 * rooms[i]!;
      }
      reach(next);
      let to = base;
      for (let i = 0; i < moved.length; i++) {
        put(moved[i]!, to);
        to = aligned(to + moved[i]!.byteLength);
      }
      return pointers as never;
    },
    hold(length) {
      if (length > held.length) {
        const isLast = held.at + 8 * held.length === base;
        held = { at: isLast ? held.at : base, length };
        base = held.at + 8 * length;
        reach(base);
      }
      return held.at as unknown as Placed;
    },
    settle(list) {
      const before = settled.get(list);
      if (before === undefined) settled.set(list, -1);
      const end = aligned(base + list.byteLength);
      if (before !== -1 || end > MOST_SETTLED) return;
      reach(end);
      put(list, base);
      settled.set(list, base);
      base = end;
    },
    read(list, length, from = 0) {
      const at = (list as unknown as number) / 8 + from;
      return numbers.subarray(at, at + length);
    },
  };
}

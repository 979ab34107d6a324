/**
 * Where the loops of the model run: as machine code, compiled from the same text, wherever the engine takes it. A start runs
 * most of a loop before the engine has compiled it, and compiling costs as much again; machine code is fast at once.
 */
import { bytes } from './bytes.ts';
import { FROM, PAGE, programOf } from './engine.ts';
import * as loops from './loops/index.ts';

/** A list that was placed, as the loops take it. */
export interface Placed {
  readonly placed: unique symbol;
}

type Taken<Given> = { [K in keyof Given]: Given[K] extends Float64Array ? Placed : Given[K] };

type Code = {
  readonly [Name in keyof typeof loops]: (
    ...given: Taken<Parameters<(typeof loops)[Name]>>
  ) => ReturnType<(typeof loops)[Name]>;
};

export interface Machine {
  readonly code: Code;
  /**
   * Copies lists to where the loops work, and after them leaves room for lists of so many numbers, in which anything may
   * stand; what was placed before is gone. Lists that lie there already, as what is held does, stay where they are. Returns
   * each as the loops take it.
   */
  place<const Lists extends readonly Float64Array[], const Rooms extends readonly number[]>(
    lists: Lists,
    ...rooms: Rooms
  ): readonly [...{ [K in keyof Lists]: Placed }, ...{ [K in keyof Rooms]: Placed }];
  /** Room for so many numbers that `place` leaves alone, good until it is asked for anew; anything may stand in it. */
  hold(length: number): Placed;
  /** What stands in a list that was placed, from one of its numbers on; good until others are placed. */
  read(list: Placed, length: number, from?: number): Float64Array;
}

/** The loops as they stand in the sources: what does them where there is no machine code. */
const plain: Machine = {
  code: loops as unknown as Code,
  place: (lists, ...rooms) =>
    [...lists.map((list) => list.slice()), ...rooms.map((length) => new Float64Array(length))] as never,
  hold: (length) => new Float64Array(length) as unknown as Placed,
  read: (list, length, from = 0) => (list as unknown as Float64Array).subarray(from, from + length),
};

let known: Machine | undefined;

export function machine(): Machine {
  return (known ??= compiled() ?? plain);
}

/** Whether the loops run as machine code: not in the sources, nor where an engine takes none. */
export const isCompiled = (): boolean => machine() !== plain;

/** What the loops as they stand make of it, for comparing. */
export function withoutMachine<T>(work: () => T): T {
  const kept = machine();
  known = plain;
  try {
    return work();
  } finally {
    known = kept;
  }
}

function compiled(): Machine | undefined {
  const code = programOf<Code>(bytes)?.();
  if (code === undefined) return undefined;
  let numbers = new Float64Array(code.memory.buffer);
  /** where what is held ends, in bytes */
  let base = FROM;
  const reach = (end: number): void => {
    const missing = end - 8 * numbers.length;
    if (missing <= 0) return;
    code.memory.grow(Math.ceil(missing / PAGE));
    numbers = new Float64Array(code.memory.buffer);
  };
  // A placed list is the byte at which it begins in the memory.
  return {
    code,
    place(lists, ...rooms) {
      const pointers: number[] = [];
      const memory = numbers.buffer;
      let next = base;
      for (const list of lists) {
        const lies = list.buffer === memory;
        pointers.push(lies ? list.byteOffset : next);
        if (!lies) next += 8 * list.length;
      }
      for (const length of rooms) {
        pointers.push(next);
        next += 8 * length;
      }
      reach(next);
      for (const [i, list] of lists.entries())
        if (list.buffer !== memory) numbers.set(list, pointers[i]! / 8);
      return pointers as never;
    },
    hold(length) {
      base = Math.max(base, FROM + 8 * length);
      reach(base);
      return FROM as unknown as Placed;
    },
    read(list, length, from = 0) {
      const at = (list as unknown as number) / 8 + from;
      return numbers.subarray(at, at + length);
    },
  };
}

/**
 * Where the loops over all sets run: as machine code, wherever the engine takes it. A case runs each a few times, which is too
 * few for the engine to have compiled it, and enough for it to begin.
 */
import { FROM, PAGE, programOf, type Memory } from '../../physics/machine/engine.ts';
import {
  compiledMachine,
  plainMachine,
  type CodeOf,
  type Machine,
  type Placed,
} from '../../physics/machine/lists.ts';
import { bytes } from './bytes.ts';
import * as loops from './loops/index.ts';

type Code = CodeOf<typeof loops>;

/** How many numbers each list has. */
interface Lengths {
  readonly numbers: Readonly<Record<string, number>>;
  readonly counts: Readonly<Record<string, number>>;
}

export interface Workshop<L extends Lengths> {
  readonly code: Code;
  readonly numbers: { readonly [K in keyof L['numbers']]: Float64Array };
  readonly counts: { readonly [K in keyof L['counts']]: Int32Array };
  /** the same lists as the loops take them */
  readonly at: { readonly [K in keyof L['numbers'] | keyof L['counts']]: Placed };
}

let program: ReturnType<typeof programOf<Code>> | 'none' | undefined;

/** Lists that loops work on, all noughts, made once: they stay where they are. */
export function workshop<const L extends Lengths>(lengths: L): Workshop<L> {
  const all = [...Object.entries(lengths.numbers), ...Object.entries(lengths.counts)];
  const made = inMemory(all.reduce((sum, [, length]) => sum + 8 * length, FROM));
  const at: Record<string, unknown> = {};
  let next = FROM;
  const lists = <List>(
    of: Readonly<Record<string, number>>,
    kind: { new (length: number): List; new (buffer: ArrayBuffer, from: number, length: number): List },
  ): Record<string, List> =>
    Object.fromEntries(
      Object.entries(of).map(([name, length]) => {
        const list = made === undefined ? new kind(length) : new kind(made.memory.buffer, next, length);
        at[name] = made === undefined ? list : next;
        next += 8 * length;
        return [name, list];
      }),
    );
  return {
    code: made ?? (loops as unknown as Code),
    numbers: lists(lengths.numbers, Float64Array),
    counts: lists(lengths.counts, Int32Array),
    at,
  } as unknown as Workshop<L>;
}

/** The program with a memory of so many bytes; undefined where there is none, or no room for it. */
function inMemory(bytesOfAll: number): (Code & Memory) | undefined {
  program ??= programOf<Code>(bytes) ?? 'none';
  if (program === 'none') return undefined;
  try {
    const made = program();
    made.memory.grow(Math.ceil(bytesOfAll / PAGE));
    return made;
  } catch {
    // No room: asked for again and again, each time would have the engine collect first.
    program = 'none';
    return undefined;
  }
}

const plain = plainMachine<Code>(loops);

let machine: Machine<Code> | undefined;

/** The one that lists are copied to for a loop or two. */
export function setsMachine(): Machine<Code> {
  return (machine ??= compiled() ?? plain);
}

function compiled(): Machine<Code> | undefined {
  const made = inMemory(0);
  return made === undefined ? undefined : compiledMachine(made);
}

/** What the loops as they stand make of it, for comparing. */
export function withoutSetsMachine<T>(work: () => T): T {
  const kept = { program, machine };
  program = 'none';
  machine = plain;
  try {
    return work();
  } finally {
    ({ program, machine } = kept);
  }
}

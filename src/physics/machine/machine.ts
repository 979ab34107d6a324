/**
 * Where the loops of the model run: as machine code, compiled from the same text, wherever the engine takes it. A start runs
 * most of a loop before the engine has compiled it, and compiling costs as much again; machine code is fast at once.
 */
import { bytes } from './bytes.ts';
import { programOf } from './engine.ts';
import { compiledMachine, plainMachine, type CodeOf, type Machine } from './lists.ts';
import * as loops from './loops/index.ts';

type Code = CodeOf<typeof loops>;

const plain = plainMachine<Code>(loops);

let known: Machine<Code> | undefined;

export function machine(): Machine<Code> {
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

function compiled(): Machine<Code> | undefined {
  const made = programOf<Code>(bytes)?.();
  return made === undefined ? undefined : compiledMachine(made);
}

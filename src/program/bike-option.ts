/** `--bike` of the commands that need a bike: a sheet, a name used before, or nothing while only one bike is known. */
import { Option, type Command } from 'commander';
import type { Io } from '../commands/io.ts';

const needed = new WeakSet<Option>();

export function neededBike(): Option {
  const option = new Option(
    '--bike <sheet>',
    'bike sheet, or the id of a bike with a log; not needed where there is only one',
  );
  needed.add(option);
  return option;
}

/** Before a command runs that needs a bike and names none, the only one that is known is put in its place. */
export async function findBike(command: Command, io: Io): Promise<void> {
  const option = command.options.find((one) => needed.has(one));
  if (option === undefined || command.getOptionValue('bike') !== undefined) return;
  const { onlyBike } = await import('../commands/known-bikes.ts');
  command.setOptionValue('bike', onlyBike(io));
}

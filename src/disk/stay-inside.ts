/** The folder of a bike is no link that leads out of the log. */
import { realpath } from 'node:fs/promises';
import { isAbsolute, relative, sep } from 'node:path';
import { LogError } from './errors.ts';

/**
 * Refuses a link that leads out of the log, whatever it is called. A folder that is not there yet leads nowhere.
 * @throws LogError `outside`
 */
export async function stayInside(outer: string, inner: string): Promise<void> {
  const [from, to] = await Promise.all([realpath(outer), realpath(inner).catch(() => undefined)]);
  if (to === undefined) return;
  const way = relative(from, to);
  // A folder that is its own inside would have one lock for two.
  if (way !== '' && way !== '..' && !way.startsWith(`..${sep}`) && !isAbsolute(way)) return;
  throw new LogError(
    'outside',
    `${inner} is a link that leads out of ${outer}.`,
    'The log writes only inside its own folder. Put a folder in its place.',
    { file: inner },
  );
}

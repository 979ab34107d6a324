/** Ids as file names: whatever an id contains, its file is a plain name inside the folder of its bike, and that folder no link out. */
import { createHash } from 'node:crypto';
import { LogError } from './errors.ts';
import { realpath } from 'node:fs/promises';
import { isAbsolute, relative, sep } from 'node:path';

/** Lower case only, since some file systems take Bike and bike for one; no dots, so no hidden, `..` or `.yaml.yaml`. */
const PLAIN = /^[a-z0-9](?:[a-z0-9_-]{0,62}[a-z0-9])?$/;
/** Names that one platform keeps for its devices, with or without an ending. */
const RESERVED = /^(?:con|prn|aux|nul|com\d|lpt\d|conin|conout|clock)$/;
const SLUG_LENGTH = 40;
const HASH_LENGTH = 12;

/**
 * A plain id is its own name; any other becomes its readable rest and a hash of the whole, so that different ids
 * never share a file. Ids that look alike (composed and decomposed accents) are the same id.
 *
 * @param what what the id names, for the message
 * @throws LogError when the id is empty
 */
export function safeName(id: string, what: string): string {
  const whole = id.normalize('NFC');
  if (whole.trim() === '') {
    throw new LogError('bad-id', `The ${what} has no id.`, 'Give it a short name, for example park-bike.');
  }
  if (PLAIN.test(whole) && !RESERVED.test(whole)) return whole;
  const slug = whole
    .normalize('NFKD')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .slice(0, SLUG_LENGTH)
    .replace(/^-+|-+$/g, '');
  const hash = createHash('sha256').update(whole).digest('hex').slice(0, HASH_LENGTH);
  return slug === '' ? `id-${hash}` : `${slug}-${hash}`;
}

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

/** Ids as file names: whatever an id contains, its file is a plain name inside the folder of its bike. */
import { LogError } from './errors.ts';
import { sha256 } from './sha256.ts';

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
  const hash = sha256().update(whole).digest('hex').slice(0, HASH_LENGTH);
  return slug === '' ? `id-${hash}` : `${slug}-${hash}`;
}

/** The entry that an interview leaves in the log of its bike. */
import type { EntryDraft } from './entry.ts';

/** @param file full path of its answers @param stop it found that the bike must not be ridden */
export function keptNote(id: string, file: string, stop: boolean): EntryDraft {
  return {
    kind: 'note',
    reason: stop ? 'an interview found a danger: do not ride this bike' : 'an interview about this bike',
    case: id,
    kept: { file, stop },
  };
}

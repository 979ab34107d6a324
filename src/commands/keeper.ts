/** Keeps an interview's answers as it goes on: whole after every answer, whatever ends it. */
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, extname, join } from 'node:path';
import { makeFolders } from '../logbook/make-folders.ts';
import { codeOf, create, reasonOf, replace } from './save-case.ts';

export type CaseData = Readonly<Record<string, unknown>>;

/** A file to keep the case in. */
export interface Place {
  readonly path: string;
  /** replace: the file is ours; new: it must not exist yet; numbered: as new, else the next free name beside it */
  readonly how: 'replace' | 'new' | 'numbered';
}

export interface Keeper {
  /**
   * Keeps the case, at the first of the places that can be written.
   *
   * @param durable wait until it is on the disk; between two prompts that is not worth the time
   * @param data the case as it should stand in a file in that folder
   */
  keep(data: (folder: string) => CaseData, durable: boolean): Promise<void>;
  /** where it was kept last; undefined when it was not */
  readonly path: string | undefined;
  /** the wanted place could not be written */
  readonly elsewhere: boolean;
}

/** @param warn is told in one line, once a place, what cannot be written and why */
export function openKeeper(wanted: readonly Place[], warn: (line: string) => void): Keeper {
  const places = [...wanted, { path: 'interview.yaml', how: 'last-resort' } as const];
  const yaml = import('yaml');
  let at = 0;
  let path: string | undefined;
  return {
    get path() {
      return path;
    },
    get elsewhere() {
      return at > 0;
    },
    async keep(data, durable) {
      const { stringify } = await yaml;
      for (; at < places.length; at++) {
        const place = places[at]!;
        try {
          const target =
            place.how === 'last-resort'
              ? join(mkdtempSync(join(tmpdir(), 'earshot-')), place.path)
              : place.path;
          if (path === undefined) makeFolders(dirname(target));
          const text = stringify(data(dirname(path ?? target)));
          if (path === undefined) path = first(target, place.how, text, durable);
          else replace(path, text, durable);
          return;
        } catch (error) {
          const failed = path ?? place.path;
          path = undefined;
          warn(`${failed}: cannot be written (${reasonOf(error)}).`);
        }
      }
    },
  };
}

function first(path: string, how: Place['how'] | 'last-resort', text: string, durable: boolean): string {
  if (how === 'replace') return replace(path, text, durable);
  if (how !== 'numbered') return create(path, text, durable);
  for (let n = 1; ; n++) {
    const numbered = n === 1 ? path : `${path.slice(0, -extname(path).length)}-${n}${extname(path)}`;
    try {
      return create(numbered, text, durable);
    } catch (error) {
      if (codeOf(error) !== 'EEXIST') throw error;
    }
  }
}

/** Keeps an interview's answers as it goes on: whole after every answer, whatever ends it. */
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, extname, join } from 'node:path';
import { sweepAside } from '../../disk/aside.ts';
import { PRIVATE, type WriteOptions } from '../../disk/atomic-file.ts';
import { makeFolders } from '../../disk/make-folders.ts';
import { whenUnsynced } from '../../disk/synced.ts';
import { codeOf, create, reasonOf, replace } from '../../disk/save.ts';

export type CaseData = Readonly<Record<string, unknown>>;

/** A file to keep the case in. */
export interface Place {
  readonly path: string;
  /** replace: the file is ours; new: it must not exist yet; numbered: as new, else the next free name beside it */
  readonly how: 'replace' | 'new' | 'numbered';
  /** kept by the program for the user, so for nobody else to read */
  readonly own?: boolean;
}

export interface Autosave {
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
export function openAutosave(wanted: readonly Place[], warn: (line: string) => void): Autosave {
  const places = [...wanted, { path: 'interview.yaml', how: 'last-resort', own: true } as const];
  whenUnsynced(warn);
  const yaml = import('../../form/yaml-text.ts');
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
      const { yamlText } = await yaml;
      for (; at < places.length; at++) {
        const place = places[at]!;
        try {
          const target =
            place.how === 'last-resort'
              ? join(mkdtempSync(join(tmpdir(), 'earshot-')), place.path)
              : place.path;
          const options = { durable, ...(place.own === true ? PRIVATE : {}) };
          if (path === undefined) makeFolders(dirname(target), place.own === true ? 0o700 : undefined);
          if (path === undefined && place.own === true) await sweepAside(dirname(target));
          const text = yamlText(data(dirname(path ?? target)));
          if (path === undefined) path = await first(target, place.how, text, options);
          else await replace(path, text, options);
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

async function first(
  path: string,
  how: Place['how'] | 'last-resort',
  text: string,
  options: WriteOptions,
): Promise<string> {
  if (how === 'replace') return await replace(path, text, options);
  if (how !== 'numbered') return await create(path, text, options);
  for (let n = 1; ; n++) {
    const numbered = n === 1 ? path : `${path.slice(0, -extname(path).length)}-${n}${extname(path)}`;
    try {
      return await create(numbered, text, options);
    } catch (error) {
      if (codeOf(error) !== 'EEXIST') throw error;
    }
  }
}

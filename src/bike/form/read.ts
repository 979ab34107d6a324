/** Reads a bike sheet: its form by `schema.ts`, its meaning by `sheet-of.ts`, all that is wrong with either at once. */
import { checked, laterFormat } from '../../form/checked.ts';
import { isMap } from '../../form/plain-data.ts';
import { atMost, type PathProblem } from '../../form/problem.ts';
import type { OwnSetting } from '../own-setting.ts';
import type { Draft } from './draft.ts';
import { SHEET_FORMAT } from './limits.ts';
import { sheetSchema, sheetSchemaWith } from './schema.ts';
import { sheetOf, type ReadSheet } from './sheet-of.ts';

/** The forms of the few lists of settings that packs in use add. */
const forms = new WeakMap<readonly OwnSetting[], typeof sheetSchema>();

/**
 * Never throws.
 * @param raw what a YAML (core schema) or JSON reader gave
 * @param own the settings that rule packs in use add to the table
 */
export function readSheet(raw: unknown, own: readonly OwnSetting[] = []): ReadSheet {
  const later = laterFormat(raw, 'bike', SHEET_FORMAT, 'This bike sheet');
  const wrongFile = [...caseInstead(raw), ...later];
  if (wrongFile.length > 0) return { problems: wrongFile };
  let form = own.length === 0 ? sheetSchema : forms.get(own);
  if (form === undefined) forms.set(own, (form = sheetSchemaWith(own) as typeof sheetSchema));
  const { good, sound, problems } = checked(raw, form, 'A bike sheet');
  if (sound === undefined) return { problems };
  const read = sheetOf(sound, own);
  return good ? read : { problems: atMost([...problems, ...read.problems]) };
}

/** Saved answers have a `bike:` too, which is the name of a sheet. */
function caseInstead(raw: unknown): PathProblem[] {
  if (!isMap(raw) || raw['case'] === undefined || typeof raw['bike'] === 'number') return [];
  return [
    {
      path: [],
      severity: 'error',
      message: 'These are saved answers, not a bike sheet.',
      remedy: 'Give them as the case: earshot diagnose FILE.',
    },
  ];
}

/** What stands against the value at a path; what is still missing elsewhere does not count. */
export function problemsAt(draft: Draft, path: string, own: readonly OwnSetting[] = []): PathProblem[] {
  return readSheet(draft, own).problems.filter(({ path: at }) => {
    const name = at.join('.');
    return name === path || name.startsWith(`${path}.`);
  });
}

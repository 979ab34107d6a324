/** Reads a case: its form by `case-schema.ts`, its meaning by `case-of.ts`, all that is wrong with either at once. */
import type { OwnSetting } from '../../bike/own-setting.ts';
import type { BikeSheet } from '../../bike/sheet.ts';
import { checked, laterFormat } from '../../form/checked.ts';
import { atMost } from '../../form/problem.ts';
import { isMap } from '../../form/plain-data.ts';
import { CASE_FORMAT, type CaseVocabulary, type ReadCase } from '../case.ts';
import { caseOf, unplaced } from './case-of.ts';
import { caseSchemaWith } from './case-schema.ts';
import { tooMuch } from './too-much.ts';

/** The forms of the few lists of settings that packs in use add. */
const forms = new WeakMap<readonly OwnSetting[], ReturnType<typeof caseSchemaWith>>();

/**
 * Never throws.
 * @param fallbackId the id of a record that gives none, such as its file and line
 * @param sheet of the bike that it is about: a measured number is held against its targets, else against what is usual
 * @param isWrong something else is wrong with the record, such as its bike
 */
export function readCase(
  raw: unknown,
  vocabulary: CaseVocabulary,
  fallbackId: string,
  sheet?: BikeSheet,
  isWrong = false,
): ReadCase {
  if (isMap(raw)) {
    const wrongFile = [
      ...sheetInstead(raw),
      ...laterFormat(raw, 'case', CASE_FORMAT, 'This case'),
      ...tooMuch(raw),
    ];
    if (wrongFile.length > 0) return { problems: wrongFile };
  }
  const { adjusters } = vocabulary;
  let form = forms.get(adjusters);
  if (form === undefined) forms.set(adjusters, (form = caseSchemaWith(adjusters)));
  const { good, sound, problems } = checked(raw, form, 'A case');
  if (sound === undefined) return { problems };
  const read = caseOf(sound, vocabulary, fallbackId, sheet);
  if (good && read.problems.length === 0 && !isWrong) return read;
  // What was tried is placed on the bike later; where the words alone tell that it cannot be, it is told with the rest.
  return { problems: atMost([...problems, ...read.problems, ...unplaced(sound, vocabulary)]) };
}

function sheetInstead(raw: Readonly<Record<string, unknown>>): ReadCase['problems'] {
  if (typeof raw['bike'] !== 'number' || raw['case'] !== undefined || raw['answers'] !== undefined) return [];
  return [
    {
      path: [],
      severity: 'error',
      message: 'This is a bike sheet, not saved answers.',
      remedy: 'Give it as the bike: earshot interview --bike FILE.',
    },
  ];
}

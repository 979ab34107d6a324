/** A case that has its form, read without zod; what is wrong with one that has not, `read-case.ts` says. */
import { withOwn } from '../../bike/form/read-quickly.ts';
import type { BikeSheet } from '../../bike/sheet.ts';
import { compiledForms } from '../../form/compiled-forms.ts';
import { isMap } from '../../form/plain-data.ts';
import { atMost } from '../../form/problem.ts';
import { hasForm, type JsonForm } from '../../form/quick.ts';
import type { CaseVocabulary, ReadCase } from '../case.ts';
import { caseOf, unplaced } from './case-of.ts';
import type { CaseFile } from './case-schema.ts';
import { tooMuch } from './too-much.ts';

const formFor = new WeakMap<CaseVocabulary, JsonForm>();

/**
 * @param sheet of the bike that it is about, where there is one
 * @returns undefined where the full reader has to look
 */
export function readQuickly(
  raw: unknown,
  vocabulary: CaseVocabulary,
  fallbackId: string,
  sheet?: BikeSheet,
): ReadCase | undefined {
  const plain = compiledForms['case'];
  if (plain === undefined || !isMap(raw) || tooMuch(raw).length > 0) return undefined;
  let form = formFor.get(vocabulary);
  if (form === undefined) {
    const { has, ...others } = plain.properties!;
    const told = withOwn(has!, vocabulary.adjusters, () => ({ type: 'string' }));
    formFor.set(vocabulary, (form = { ...plain, properties: { ...others, has: told } }));
  }
  if (!hasForm(form, raw)) return undefined;
  const file = raw as CaseFile;
  const read = caseOf(file, vocabulary, fallbackId, sheet);
  return read.problems.length === 0
    ? read
    : { problems: atMost([...read.problems, ...unplaced(file, vocabulary)]) };
}

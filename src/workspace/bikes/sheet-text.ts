/** The text of a sheet's file: read with its form kept, and written again with only what changed touched. */
import { json } from '../../form/text.ts';
import { asWritten, editsBetween } from '../../bike/form/edit-file.ts';
import { readSheet } from '../../bike/form/read.ts';
import type { BikeSheet } from '../../bike/sheet.ts';
import { withoutKnobs, writeSheet, type SheetFile } from '../../bike/form/write.ts';
import { parseDocument, stringify } from 'yaml';
import { editedInPlace } from '../../disk/edit-in-place.ts';

/**
 * A sheet as a file of its own, YAML or (by its name) JSON.
 * @param told what it was made of, for the knobs that are said not to be there
 */
export function sheetText(sheet: BikeSheet, path: string, head = '', told: SheetFile = {}): string {
  const data = withoutKnobs(writeSheet(sheet), told);
  return path.endsWith('.json') ? json(data) : `${head}${yaml(data)}`;
}

/**
 * The file after a change of the sheet in it: nothing but what changed is touched. Where that cannot be done (anchors,
 * merges), the file is written anew.
 */
export function editedText(text: string, before: BikeSheet, after: BikeSheet, path: string): string {
  const file = writeSheet(after);
  const keys = (at: readonly string[]): string[] =>
    Object.keys(
      (at.reduce<unknown>((here, key) => (here as Record<string, unknown> | undefined)?.[key], file) ??
        {}) as object,
    );
  try {
    const raw: unknown = parseDocument(text, { schema: 'core' }).toJS();
    const edits = editsBetween(writeSheet(before), file).map((edit) => asWritten(edit, raw));
    const edited = editedInPlace(text, edits, keys, path.endsWith('.json'));
    if (edited !== undefined) {
      const { sheet } = readSheet(parseDocument(edited, { schema: 'core' }).toJS(), before.settings);
      if (sheet !== undefined && same(sheet, after)) return edited;
    }
  } catch {
    // An odd document: write it anew.
  }
  return sheetText(after, path);
}

function same(one: BikeSheet, other: BikeSheet): boolean {
  return JSON.stringify(writeSheet(one)) === JSON.stringify(writeSheet(other));
}

function yaml(data: unknown): string {
  const document = parseDocument(stringify(data, { schema: 'core', lineWidth: 0 }), { schema: 'core' });
  // Small maps on a line of their own, as a mechanic would write them.
  const flow = (at: readonly (string | number)[]): void => {
    const node = document.getIn(at) as { flow?: boolean } | undefined;
    if (node !== undefined && typeof node === 'object') node.flow = true;
  };
  for (const at of [['units'], ['geometry'], ['cockpit']]) flow(at);
  for (const end of ['front', 'rear'])
    for (const key of ['spring', 'sag', 'rebound', 'compression', 'tyre', 'leverage']) flow([end, key]);
  for (const end of ['front', 'rear'])
    for (let i = 0; document.hasIn([end, 'curve', i]); i++) flow([end, 'curve', i]);
  return document.toString({ lineWidth: 120 }).replaceAll(/\[ ([\d., -]+) \]/g, '[$1]');
}

/** The text of a sheet's file: read with its form kept, and written again with only what changed touched. */
import { editsBetween } from '../bike/edit-file.ts';
import { readSheet } from '../bike/read.ts';
import type { BikeSheet } from '../bike/sheet.ts';
import { writeSheet } from '../bike/write.ts';
import { isCollection, isMap, isScalar, parseDocument, stringify, type Document, type YAMLMap } from 'yaml';

/** A sheet as a file of its own, YAML or (by its name) JSON. */
export function sheetText(sheet: BikeSheet, path: string, head = ''): string {
  const data = writeSheet(sheet);
  return path.endsWith('.json') ? `${JSON.stringify(data, null, 2)}\n` : `${head}${yaml(data)}`;
}

/**
 * The file after a change of the sheet in it: comments, order and the units of everything else stay as they were. Where
 * that cannot be done (anchors, merges), the file is written anew.
 */
export function editedText(text: string, before: BikeSheet, after: BikeSheet, path: string): string {
  if (path.endsWith('.json')) return sheetText(after, path);
  const document = parseDocument(text, { schema: 'core' });
  try {
    const file = writeSheet(after);
    for (const { path: at, value } of editsBetween(writeSheet(before), file)) {
      if (value === undefined) document.deleteIn(at);
      else if (document.hasIn(at)) document.setIn(at, document.createNode(value, { flow: at.length > 1 }));
      else putInOrder(document, at, value, file);
    }
    const written = document.toString({ lineWidth: 120 });
    // The library pads lists as it pads maps; numbers in a list are written without.
    const padded = /\[ ([\d., -]+) \]/g;
    const edited = text.search(padded) >= 0 ? written : written.replaceAll(padded, '[$1]');
    const { sheet } = readSheet(parseDocument(edited, { schema: 'core' }).toJS());
    if (sheet !== undefined && same(sheet, after)) return edited;
  } catch {
    // An odd document: write it anew.
  }
  return sheetText(after, path);
}

/** A new key goes where the file form has it: before the first of its later neighbours that is there. */
function putInOrder(document: Document, at: readonly string[], value: unknown, file: object): void {
  const above = at.slice(0, -1);
  const map = document.getIn(above) as YAMLMap | undefined;
  if (!isMap(map)) return document.setIn(at, document.createNode(value, { flow: at.length > 1 }));
  const form = above.reduce<unknown>((here, key) => (here as Record<string, unknown>)[key], file) as object;
  const keys = Object.keys(form);
  const later = new Set(keys.slice(keys.indexOf(at.at(-1)!) + 1));
  const place = map.items.findIndex((pair) => later.has(isScalar(pair.key) ? String(pair.key.value) : ''));
  const pair = document.createPair(at.at(-1)!, value, { flow: true });
  if (isCollection(pair.value)) pair.value.flow = true;
  map.items.splice(place < 0 ? map.items.length : place, 0, pair);
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

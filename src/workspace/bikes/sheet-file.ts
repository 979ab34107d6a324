/** A bike's sheet as the log brings it up to what was written down. */
import type { OwnSetting } from '../../bike/own-setting.ts';
import { readSheet } from '../../bike/form/read.ts';
import { movedBetween, withStands } from '../../bike/setting-values.ts';
import type { BikeSheet } from '../../bike/sheet.ts';
import type { SheetFile } from '../../logbook/sheet-writing.ts';
import { parseDocument } from 'yaml';
import { editedText } from './sheet-text.ts';

/** @param own the settings that the rule packs in use add to the table */
export function sheetFile(path: string, own: readonly OwnSetting[] = []): SheetFile {
  return {
    path,
    bring(text, changes) {
      const before = read(text, own);
      if (before === undefined) return undefined;
      const { sheet } = withStands(
        before,
        changes.map(({ to, from: _, ...rest }) => ({ ...rest, value: to })),
      );
      return movedBetween(before, sheet).length === 0 ? text : editedText(text, before, sheet, path);
    },
  };
}

function read(text: string, own: readonly OwnSetting[]): BikeSheet | undefined {
  try {
    return readSheet(parseDocument(text, { schema: 'core' }).toJS(), own).sheet;
  } catch {
    return undefined;
  }
}

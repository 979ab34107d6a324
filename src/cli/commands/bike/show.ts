/** `earshot bike show`: the settings of a bike, as its sheet says them. */
import { command, format, SHEET_OR_BIKE } from '../../takes.ts';
import { writeSheet } from '../../../bike/form/write.ts';
import { sheetRows } from '../../../report/bike/sheet-rows.ts';
import { sheetShown } from '../../../report/bike/sheet-text.ts';
import { EXIT } from '../../../host/io.ts';
import { openBike } from '../../../workspace/bikes/open-bike.ts';
import { json } from '../../../form/text.ts';

export const bikeShow = command({
  about: 'current settings, recommended settings, and the range left each way',
  args: SHEET_OR_BIKE.args,
  options: { ...SHEET_OR_BIKE.options, format: format('text', 'json') },
  examples: [['earshot bike show my-bike.yaml', 'every current setting']],
  run: async ({ file, format }, { io, style }) => {
    const { sheet } = await openBike(file, io);
    const rows = sheetRows(sheet);
    if (format === 'json') await io.out(json({ format: 1, bike: sheet.id, sheet: writeSheet(sheet), rows }));
    else await io.out(sheetShown(sheet, rows, await style()));
    return EXIT.done;
  },
});

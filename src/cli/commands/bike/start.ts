/** `earshot bike start`: where to begin on this bike. */
import { ENDS } from '../../../bike/sheet.ts';
import { writeSheet } from '../../../bike/form/write.ts';
import { fitDampers, bikeFromSheet } from '../../../physics/index.ts';
import { startOf } from '../../../physics/start.ts';
import { command, flag, format, SHEET_OR_BIKE, text } from '../../takes.ts';
import { startText } from '../../../report/bike/start-text.ts';
import { EXIT } from '../../../host/io.ts';
import { json } from '../../../form/text.ts';
import { openBike } from '../../../workspace/bikes/open-bike.ts';
import { sheetText } from '../../../workspace/bikes/sheet-text.ts';
import { writeNew } from '../../../disk/write-new.ts';

export const bikeStart = command({
  about: 'starting points: spring, clicks and balance; recommended settings win where there are any',
  args: SHEET_OR_BIKE.args,
  options: {
    ...SHEET_OR_BIKE.options,
    write: text('file', 'write a sheet with these starting points'),
    force: flag('overwrite an existing file'),
    format: format('text', 'json'),
  },
  examples: [
    ['earshot bike start my-bike.yaml', 'starting points'],
    ['earshot bike start my-bike.yaml --write begun.yaml', 'and a sheet with them'],
  ],
  run: async ({ file, write, force, format }, { io, style }) => {
    const { sheet } = await openBike(file, io);
    const fits = await fitDampers(sheet);
    const start = startOf(sheet, fits);
    const { notes } = bikeFromSheet(sheet, fits);
    if (write !== undefined) {
      const head = `# Starting points for ${sheet.id}, worked out by earshot. Where the manufacturer's manual says otherwise, it wins.\n`;
      await writeNew(write, sheetText(start.sheet, write, head), force, io);
      io.err(`Written: ${write}\n`);
    }
    const { sheet: begun, suspended, balance, together, ...rest } = start;
    const ends = Object.fromEntries(suspended.map((end) => [end, start.ends[end]]));
    const said = { ...rest, ends, ...(suspended.length === ENDS.length ? { balance, together } : {}) };
    if (format === 'json')
      await io.out(json({ format: 1, bike: sheet.id, ...said, notes, sheet: writeSheet(begun) }));
    else await io.out(startText(sheet, start, notes, await style()));
    return EXIT.done;
  },
});

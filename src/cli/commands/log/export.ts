/** `earshot log export`: the whole history of a bike, for other tools. */
import { historyCsv, historyJson } from '../../../logbook/export.ts';
import { command, format, onBike } from '../../takes.ts';
import { EXIT } from '../../../host/io.ts';
import { readHistory } from '../../../workspace/bikes/read-history.ts';

export const logExport = command({
  about: 'the whole history for other tools',
  options: { bike: onBike(), format: format('csv', 'json') },
  examples: [['earshot log export --bike my-bike.yaml --format csv', 'for a spreadsheet']],
  run: async ({ bike: file, format: form }, { io }) => {
    const { bike, history } = await readHistory(file, io);
    await io.out(form === 'csv' ? historyCsv(history.entries) : historyJson(bike.sheet.id, history.entries));
    return EXIT.done;
  },
});

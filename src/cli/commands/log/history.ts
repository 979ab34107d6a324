/** `earshot log history`: what was done to a bike. */
import { standsOf } from '../../../bike/setting-values.ts';
import { driftOf, standings } from '../../../logbook/replay.ts';
import { historyJson } from '../../../logbook/export.ts';
import { command, format, onBike } from '../../takes.ts';
import { count } from '../../values.ts';
import { historyText } from '../../../report/bike/log-text.ts';
import { EXIT } from '../../../host/io.ts';
import type { ChangeUnit } from '../../../bike/change.ts';
import { numberWord, setLine } from '../../../workspace/bikes/set-line.ts';
import { readHistory } from '../../../workspace/bikes/read-history.ts';

export const logHistory = command({
  about: 'every change with date and reason (the default)',
  options: {
    bike: onBike(),
    last: count('n', 'only the newest n'),
    format: format('text', 'json'),
  },
  examples: [
    ['earshot log --bike my-bike.yaml', 'everything that was done'],
    ['earshot log history --bike my-bike.yaml --last 5', 'the newest five'],
  ],
  run: async (given, { io, style }) => {
    const { bike, history } = await readHistory(given.bike, io);
    const { entries } = history;
    const shown = given.last === undefined ? entries : entries.slice(-given.last);
    if (given.format === 'json') await io.out(historyJson(bike.sheet.id, shown));
    else {
      const drift = driftOf(standsOf(bike.sheet), standings(entries));
      const name = bike.sheet.name ?? bike.sheet.id;
      const numbers = drift.map(({ setting, unit }) =>
        numberWord({ key: setting, unit: unit as ChangeUnit }),
      );
      const settle = setLine(numbers, given.bike, io.packs);
      await io.out(
        historyText(name, settle, shown, entries.length - shown.length, drift, await style(), bike.sheet),
      );
    }
    return EXIT.done;
  },
});

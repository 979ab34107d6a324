/** `earshot log diff`: what differs on a bike between two days. */
import { arg, command, format, maybeArg, onBike } from '../../takes.ts';
import { diffText, sinceCounted } from '../../../report/bike/log-text.ts';
import { EXIT, Refusal } from '../../../host/io.ts';
import { json } from '../../../form/text.ts';
import { refusing } from '../../../workspace/bikes/open-bike.ts';
import { readHistory } from '../../../workspace/bikes/read-history.ts';

/** From the beginning of one day to the end of another, or between two times. */
export const logDiff = command({
  about: 'what differs between two days',
  args: { from: arg('year-month-day'), to: maybeArg('year-month-day; now when left out') },
  options: { bike: onBike(), format: format('text', 'json') },
  examples: [
    ['earshot log diff 2026-05-01 2026-05-20 --bike my-bike.yaml', 'between two days'],
    ['earshot log diff 2026-05-01 --bike my-bike.yaml', 'since that day'],
  ],
  run: async (given, { io, style }) => {
    const now = io.now().toISOString();
    const [from, to] = [given.from, given.to ?? now].sort(
      (a, b) => moment(a, 'begins').getTime() - moment(b, 'begins').getTime(),
    ) as [string, string];
    const { bike, history } = await readHistory(given.bike, io);
    const all = await refusing(() => bike.log.diff(moment(from, 'begins'), moment(to, 'ends')));
    const found = sinceCounted(all, history.entries);
    if (given.format === 'json')
      await io.out(json({ format: 1, bike: bike.sheet.id, from, to, differences: found }));
    else {
      const shown = to === now ? 'today' : to;
      await io.out(
        diffText(bike.sheet.name ?? bike.sheet.id, [from, shown], found, await style(), bike.sheet),
      );
    }
    return EXIT.done;
  },
});

/** A day is the user's own, from midnight to midnight; its beginning is just before its first entry. */
function moment(text: string, edge: 'begins' | 'ends'): Date {
  const isDay = /^\d{4}-\d\d-\d\d$/.test(text);
  const isTime = /^\d{4}-\d\d-\d\dT\d\d:\d\d/.test(text);
  const [year, month, day] = text.slice(0, 10).split('-').map(Number) as [number, number, number];
  const calendar = new Date(Date.UTC(year, month - 1, day));
  const real = (isDay || isTime) && calendar.getUTCMonth() === month - 1 && calendar.getUTCDate() === day;
  const at = !isDay
    ? new Date(text)
    : edge === 'begins'
      ? new Date(new Date(year, month - 1, day).getTime() - 1)
      : new Date(new Date(year, month - 1, day + 1).getTime() - 1);
  if (!real || Number.isNaN(at.getTime()))
    throw new Refusal(
      `${text.replaceAll(/\p{Cc}/gu, '?').slice(0, 40)} is not a date. Write year-month-day, such as 2026-05-01, or a time such as 2026-05-01T14:00Z.`,
    );
  return at;
}

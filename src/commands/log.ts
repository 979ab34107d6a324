/** `earshot log`: what was done to a bike, what differs between two days, and the whole for other tools. */
import { standsOf } from '../bike/stands.ts';
import { driftOf } from '../logbook/drift.ts';
import { historyCsv, historyJson } from '../logbook/export.ts';
import { standings } from '../logbook/replay.ts';
import type { History } from '../logbook/history.ts';
import type { Style } from '../report/style.ts';
import { EXIT, Refusal, type ExitCode, type Io } from './io.ts';
import { openBike, refusing, type OpenBike } from './open-bike.ts';
import { packArgs, quoted } from './quoted.ts';

interface LogOptions {
  readonly bike: string;
  readonly style: Style;
}

export interface HistoryOptions extends LogOptions {
  readonly format: 'text' | 'json';
  /** only the newest n */
  readonly last?: number | undefined;
}

export async function logHistory(options: HistoryOptions, io: Io): Promise<ExitCode> {
  const { bike, history } = await opened(options.bike, io);
  const { entries } = history;
  const shown = options.last === undefined ? entries : entries.slice(-options.last);
  if (options.format === 'json') await io.out(historyJson(bike.sheet.id, shown));
  else {
    const { historyText } = await import('../report/log-text.ts');
    const drift = driftOf(standsOf(bike.sheet), standings(entries));
    const name = bike.sheet.name ?? bike.sheet.id;
    const start = `earshot log start --bike ${quoted(options.bike)}${packArgs(io.packs)}`;
    await io.out(
      historyText(name, start, shown, entries.length - shown.length, drift, options.style, bike.sheet),
    );
  }
  return EXIT.done;
}

export interface DiffOptions extends LogOptions {
  readonly from: string;
  /** absent: now */
  readonly to?: string | undefined;
  readonly format: 'text' | 'json';
}

/** From the beginning of one day to the end of another, or between two times. */
export async function logDiff(options: DiffOptions, io: Io): Promise<ExitCode> {
  const now = io.now().toISOString();
  const [from, to] = [options.from, options.to ?? now].sort(
    (a, b) => moment(a, 'begins').getTime() - moment(b, 'begins').getTime(),
  ) as [string, string];
  const { bike, history } = await opened(options.bike, io);
  const { diffText, sinceCounted } = await import('../report/log-text.ts');
  const all = await refusing(() => bike.log.diff(moment(from, 'begins'), moment(to, 'ends')));
  const found = sinceCounted(all, history.entries);
  if (options.format === 'json')
    await io.out(
      `${JSON.stringify({ format: 1, bike: bike.sheet.id, from, to, differences: found }, null, 2)}\n`,
    );
  else {
    const shown = to === now ? 'today' : to;
    await io.out(diffText(bike.sheet.name ?? bike.sheet.id, [from, shown], found, options.style, bike.sheet));
  }
  return EXIT.done;
}

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
      `${text.replaceAll(/\p{Cc}/gu, '?').slice(0, 40)} is no date. Write year-month-day, such as 2026-05-01, or a time such as 2026-05-01T14:00Z.`,
    );
  return at;
}

export interface ExportOptions {
  readonly bike: string;
  readonly format: 'csv' | 'json';
}

export async function logExport({ bike: file, format }: ExportOptions, io: Io): Promise<ExitCode> {
  const { bike, history } = await opened(file, io);
  await io.out(format === 'csv' ? historyCsv(history.entries) : historyJson(bike.sheet.id, history.entries));
  return EXIT.done;
}

async function opened(file: string, io: Io): Promise<{ bike: OpenBike; history: History }> {
  const bike = await openBike(file, io);
  const history = await refusing(() => bike.log.readHistory());
  if (history.misnumbered !== undefined) io.err(`${history.misnumbered}\n`);
  if (history.unfinished !== undefined)
    io.err(
      `An entry that was never finished stands at line ${history.unfinished.line} of ${bike.log.folder}/history.yaml; it does not count.\n`,
    );
  return { bike, history };
}

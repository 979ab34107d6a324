/** A ridden run as options give it: which arm, ratings, time. */
import { didYouMean } from '../../../form/suggest.ts';
import { checkBegun } from '../../../trials/record.ts';
import { nextArm } from '../../../trials/sequence.ts';
import type { ArmName, Trial } from '../../../trials/trial.ts';
import { Refusal } from '../../../host/io.ts';
import { mistakeLine } from '../../../workspace/bikes/trial-shelf.ts';

/** Which run is meant: a new one with its arm, or one that is put right. */
export interface MeantRun {
  readonly arm: ArmName;
  /** 0-based place of a run that is written again; absent for a new one */
  readonly instead?: number;
}

/** @param run an arm's name, or the number of a run on the printed sheet; the planned arm without it */
export function meantRun(trial: Trial, run: string | undefined): MeantRun {
  const next = trial.ridden.length + 1;
  if (run === undefined) return { arm: nextArm(trial) };
  const arm = trial.arms.find(({ name }) => name === run);
  if (arm !== undefined) return { arm: arm.name };
  const number = /^\d+$/.test(run) ? Number(run) : undefined;
  if (number === next) return { arm: nextArm(trial) };
  if (number !== undefined && number >= 1 && number < next)
    return { arm: trial.ridden[number - 1]!.arm, instead: number - 1 };
  const names = trial.arms.map(({ name }) => name);
  throw new Refusal(
    number === undefined
      ? `--run ${run}: no such run. ${didYouMean(run, names)} Write ${names.join(', ')}, or the run's number.`.replace(
          '  ',
          ' ',
        )
      : `--run ${run}: run ${next} is next. Record the runs in the order you rode them${next === 1 ? '' : `. To correct an earlier run, give its number`}.`,
  );
}

export interface RunGiven {
  readonly meant: MeantRun;
  readonly ratings: Readonly<Record<string, number>>;
  /** absent when nobody timed it */
  readonly seconds: number | undefined;
}

/** @throws Refusal with all that is wrong with what the line says of the run */
export function readRun(
  trial: Trial,
  {
    run,
    rating,
    time,
  }: {
    readonly run?: string | undefined;
    readonly rating: readonly string[];
    readonly time?: string | undefined;
  },
): RunGiven {
  const wrong: string[] = [];
  const sound = <T>(read: () => T): T | undefined => {
    try {
      return read();
    } catch (error) {
      if (!(error instanceof Refusal)) throw error;
      wrong.push(error.message);
      return undefined;
    }
  };
  const meant = sound(() => meantRun(trial, run));
  const ratings = readRatings(rating, wrong);
  const seconds = sound(() => readTime(time));
  if (wrong.length === 0) return { meant: meant!, ratings, seconds };
  const beside = Object.keys(ratings).length === 0 ? [] : checkBegun(trial, { ratings });
  throw new Refusal([...wrong, ...beside.map(mistakeLine)].join('\n'));
}

/** `grip=5`, each once. @param wrong gets a line for each that cannot be read */
function readRatings(given: readonly string[], wrong: string[]): Record<string, number> {
  const ratings: Record<string, number> = {};
  for (const one of given) {
    const [, id, value] = /^\s*([\w-]+)\s*=\s*([\d.]+)\s*$/.exec(one.toLowerCase()) ?? [];
    if (id === undefined || value === undefined)
      wrong.push(`--rating ${one.trim() === '' ? "''" : one}: write it like grip=5.`);
    else if (Object.hasOwn(ratings, id)) wrong.push(`--rating ${one}: ${id} is rated twice.`);
    else ratings[id] = Number(value);
  }
  return ratings;
}

/** `61.2`, `61,2` or `1:01.2` → s; undefined for nothing. @param from what it was given by, for the message */
export function readTime(text: string | undefined, from = '--time '): number | undefined {
  if (text === undefined || text.trim() === '') return undefined;
  const [, minutes, seconds] = /^\s*(?:(\d+):)?(\d+(?:[.,]\d+)?)\s*s?\s*$/.exec(text) ?? [];
  if (seconds === undefined || (minutes !== undefined && Number(seconds.replace(',', '.')) >= 60))
    throw new Refusal(`${from}${text}: write seconds, 61.2, or minutes and seconds, 1:01.2.`);
  return Number((Number(minutes ?? 0) * 60 + Number(seconds.replace(',', '.'))).toFixed(3));
}

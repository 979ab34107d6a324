/** A ridden run as options give it: which arm, ratings, time. */
import { didYouMean } from '../../../form/suggest.ts';
import { nextArm } from '../../../trials/sequence.ts';
import type { ArmName, Trial } from '../../../trials/trial.ts';
import { Refusal } from '../../../host/io.ts';

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
      ? `--run ${run}: no such run. ${didYouMean(run, names)} Write ${names.join(', ')}, or the run's number.`
      : `--run ${run}: run ${next} is next. Record the runs in the order you rode them${next === 1 ? '' : `. To correct an earlier run, give its number`}.`,
  );
}

/** `grip=5`, each once. @throws Refusal with every one that cannot be read */
export function readRatings(given: readonly string[]): Record<string, number> {
  const wrong: string[] = [];
  const ratings: Record<string, number> = {};
  for (const one of given) {
    const [, id, value] = /^\s*([\w-]+)\s*=\s*([\d.]+)\s*$/.exec(one) ?? [];
    if (id === undefined || value === undefined) wrong.push(`--rating ${one}: write it like grip=5.`);
    else if (Object.hasOwn(ratings, id)) wrong.push(`--rating ${one}: ${id} is rated twice.`);
    else ratings[id] = Number(value);
  }
  if (wrong.length > 0) throw new Refusal(wrong.join('\n'));
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

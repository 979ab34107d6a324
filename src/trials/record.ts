/** Writing down a run: checked against the plan, all mistakes at once. */
import {
  armOf,
  type ArmName,
  type BegunRun,
  type Checked,
  type RiddenRun,
  type Trial,
  type TrialProblem,
} from './trial.ts';

export const LOWEST = 1;
export const HIGHEST = 7;

/** The trial with one more ridden run. The trial that was passed in is not changed. */
export function addRun(trial: Trial, run: RiddenRun): Checked<Trial> {
  const problems = [...closedProblem(trial), ...checkRun(trial, run)];
  return problems.length > 0
    ? { ok: false, problems }
    : { ok: true, value: { ...withoutBegun(trial), ridden: [...trial.ridden, run] } };
}

/** The trial with what was told of the next run so far. */
export function keepBegun(trial: Trial, begun: BegunRun): Trial {
  return { ...trial, begun };
}

/** The trial without a run that something spoiled: what that was is noted, and the run is ridden again. */
export function leaveOut(trial: Trial, note: string): Trial {
  const { ridden, notes } = trial;
  return { ...withoutBegun(trial), notes: [...notes, `Run ${ridden.length + 1} was left out: ${note}`] };
}

function withoutBegun(trial: Trial): Trial {
  const { begun: _, ...rest } = trial;
  return rest;
}

/** Whether the last run, or the one told in part, had the step in, and the worst mark in anything. */
export function ratedWorst({ ridden, begun }: Pick<Trial, 'ridden' | 'begun'>): boolean {
  return [ridden.at(-1), begun].some(
    (run) =>
      run?.arm !== undefined &&
      run.arm !== 'reference' &&
      run.arm !== 'sham' &&
      Object.values(run.ratings).includes(LOWEST),
  );
}

/** What is wrong with a run that was told in part. */
export function checkBegun(trial: Trial, { arm, ratings, seconds }: BegunRun): TrialProblem[] {
  return [
    ...(arm === undefined ? [] : armProblem(trial, arm)),
    ...(Object.keys(ratings).length === 0 ? [] : ratingProblems(trial, ratings)),
    ...timeProblem(seconds),
  ];
}

/** The trial without its last run, for a slip of the pen; what was told of the one after it is of no run any more. */
export function dropRun(trial: Trial): Trial {
  return { ...withoutBegun(trial), ridden: trial.ridden.slice(0, -1) };
}

/** What is wrong with a run of this trial; also used on trials read from a file edited by hand. */
export function checkRun(trial: Trial, run: RiddenRun): TrialProblem[] {
  return [...armProblem(trial, run.arm), ...ratingProblems(trial, run.ratings), ...timeProblem(run.seconds)];
}

export function closedProblem(trial: Trial): TrialProblem[] {
  if (trial.verdict === undefined) return [];
  return [
    {
      code: 'closed',
      at: 'verdict',
      message: `Trial ${trial.id} is closed with the verdict "${trial.verdict}".`,
      remedy: 'Plan a new trial from the current setting.',
    },
  ];
}

function armProblem(trial: Trial, arm: ArmName): TrialProblem[] {
  if (armOf(trial, arm) !== undefined) return [];
  const known = trial.arms.map((one) => one.name).join(', ');
  return [
    {
      code: 'unknown-arm',
      at: 'arm',
      message: `"${arm}" is not part of this trial (${known}).`,
      remedy: 'A trial tests one adjuster. For another setting plan another trial.',
    },
  ];
}

function ratingProblems(trial: Trial, ratings: RiddenRun['ratings']): TrialProblem[] {
  const known = trial.feelings.map((feeling) => feeling.id);
  const named = trial.feelings.map(({ id, ask }) => (ask.startsWith('"') ? `${id} (${ask})` : id)).join(', ');
  const given = Object.entries(ratings);
  if (given.length === 0) {
    return [
      {
        code: 'no-rating',
        at: 'ratings',
        message: 'The run has no rating.',
        remedy: `Rate at least one of ${named} from ${LOWEST} to ${HIGHEST}.`,
      },
    ];
  }
  return given.flatMap(([id, value]): TrialProblem[] => {
    if (!known.includes(id)) {
      return [
        {
          code: 'unknown-feeling',
          at: `ratings.${id}`,
          message: `"${id}" is not rated in this trial.`,
          remedy: `Rate one of these: ${named}.`,
        },
      ];
    }
    if (Number.isInteger(value) && value >= LOWEST && value <= HIGHEST) return [];
    return [
      {
        code: 'rating',
        at: `ratings.${id}`,
        message: `${value} is not a rating.`,
        remedy: `Ratings are whole numbers from ${LOWEST} to ${HIGHEST}; ${HIGHEST} is good.`,
      },
    ];
  });
}

function timeProblem(seconds: number | undefined): TrialProblem[] {
  if (seconds === undefined || (Number.isFinite(seconds) && seconds > 0)) return [];
  return [
    {
      code: 'seconds',
      at: 'seconds',
      message: `${seconds} is not a run time.`,
      remedy: 'Give the time in seconds, above 0, or leave it out.',
    },
  ];
}

/** Longer than any timed section is ridden in one go, s; judgement. */
const LONGEST = 3600;
/** Nothing that is timed is over sooner, s; judgement. */
const SHORTEST = 5;
/** Runs of one trial are on one track: a time this many times another one, or this part of it, is of another track. */
const TIMES = 2;

/** @returns how long it would be, in words; undefined where nothing speaks against it */
export function doubtfulTime({ ridden }: Pick<Trial, 'ridden'>, seconds: number): string | undefined {
  const others = ridden.flatMap((run) => (run.seconds === undefined ? [] : [run.seconds]));
  const usual = others.toSorted((a, b) => a - b)[Math.floor(others.length / 2)];
  if (usual !== undefined && (seconds > usual * TIMES || seconds * TIMES < usual))
    return `${timeWords(seconds)}, and the other runs took about ${timeWords(usual)}`;
  return usual === undefined && (seconds > LONGEST || seconds < SHORTEST) ? timeWords(seconds) : undefined;
}

/** `61.2 s`, `2 min 5 s`, `12 h 37 min` */
function timeWords(seconds: number): string {
  if (seconds < 120) return `${seconds} s`;
  const minutes = Math.floor(seconds / 60);
  return minutes < 60
    ? `${minutes} min ${Math.round(seconds % 60)} s`
    : `${Math.floor(minutes / 60)} h ${minutes % 60} min`;
}

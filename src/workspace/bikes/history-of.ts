/** What the log of a bike adds to a case on it: earlier rounds, and what their trials said. */
import type { PreparedBike } from '../../advice/prepared-bike.ts';
import type { Change, ChangeUnit } from '../../bike/change.ts';
import { tidy } from '../../trials/trial.ts';
import { onMakersSheet } from '../../bike/makers-sheet.ts';
import type { BikeSheet } from '../../bike/sheet.ts';
import { withStands } from '../../bike/setting-values.ts';
import type { Case, CaseAnswer, CaseVocabulary } from '../../casework/case.ts';
import { lessonsOf } from '../../casework/belief-shifts.ts';
import { readCase } from '../../casework/reading/read-case.ts';
import { shiftOf } from '../../casework/rider.ts';
import { changedSince, roundsOf, standsBefore, type LoggedRound } from '../../casework/rounds.ts';
import type { Model } from '../../diagnosis/model.ts';
import { atReadiness } from '../../diagnosis/readiness.ts';
import { capital } from '../../form/text.ts';
import { leftGood, type LeftGood } from '../../logbook/left-good.ts';
import { logHome } from '../../logbook/home.ts';
import { openLog } from '../../logbook/log.ts';
import { ratedTrials } from '../../trials/outcome.ts';
import { leftGoodWords } from '../../report/bike/left-good-words.ts';
import { GOOD_END, lessonLines, readinessLine } from '../../report/bike/history-text.ts';
import type { Io } from '../../host/io.ts';
import { refusing } from './open-bike.ts';
import { tellOnce } from './tell-once.ts';
import { trialsOf } from './trial-shelf.ts';

export interface BikeHistory {
  readonly rounds: readonly LoggedRound[];
  /** the sheet as it stood when the first round was told */
  readonly before: BikeSheet;
  /** whether something was changed for good, and in no trial, after the last of them */
  readonly changed: boolean;
  /** what a trial kept and was moved since in none */
  readonly left: readonly LeftGood[];
  /** the same as changes from there to where it stands now, of what is turned by so much */
  readonly away: readonly Change[];
}

/** @returns undefined when nothing has been ridden on this bike yet; nothing is written */
export async function historyOf(
  sheet: BikeSheet,
  vocabulary: CaseVocabulary,
  io: Io,
): Promise<BikeHistory | undefined> {
  return await refusing(async () => {
    const log = await openLog(logHome(io.env), sheet.id, {
      now: io.now,
      own: sheet.settings,
      tell: tellOnce(io),
    });
    const { entries } = await log.readHistory();
    const rated = ratedTrials(await trialsOf({ log }, io));
    if (rated.length === 0 && !entries.some((entry) => entry.result !== undefined)) return undefined;
    const { papers, problems } = await log.loadCases();
    for (const { file, line, message } of problems) io.err(`${file}:${line}: ${message} Not counted.\n`);
    const answersOf = (id: string): readonly CaseAnswer[] | undefined => {
      const paper = papers.find((one) => one.id === id);
      const { value } = paper === undefined ? {} : readCase(paper.data, vocabulary, id, sheet);
      if (value === undefined)
        io.err(`The answers of ${id} in the log cannot be used any more; its trials still count.\n`);
      return value?.answers;
    };
    const rounds = roundsOf(entries, answersOf, rated);
    const left = leftGood(entries);
    return {
      rounds,
      before: withStands(sheet, standsBefore(entries)).sheet,
      changed: changedSince(entries),
      left,
      away: left.flatMap((one) => awayFrom(one) ?? []),
    };
  });
}

/** @returns undefined of a part, or of what stands at a name */
function awayFrom({ setting, unit, good, now }: LeftGood): Change | undefined {
  if (typeof good !== 'number' || typeof now !== 'number' || unit === undefined) return undefined;
  const by = tidy(now - good);
  return { setting: setting.replace(/\.(?:rate|preload)$/, ''), by, unit: unit as ChangeUnit };
}

/**
 * The case with the log's rounds before it. The trials of this very case come after its answers, as do those ridden
 * since without a new interview. What the case says itself about earlier rounds or trials stands as it is.
 */
export function withHistory(kase: Case, { rounds, changed }: BikeHistory): Case {
  const own = rounds.findIndex((round) => round.case === kase.id);
  const earlier = kase.earlier.length > 0 ? kase.earlier : own < 0 ? rounds : rounds.slice(0, own);
  const results =
    own < 0 || kase.results.length > 0 ? kase.results : rounds.slice(own).flatMap((round) => round.results);
  const anew = kase.earlier.length === 0 && (own < 0 ? changed : rounds[own]!.changed === true);
  return { ...kase, ...(anew ? { changed: true } : {}), earlier, results };
}

/**
 * What the trials of a case and its earlier rounds said, in lines.
 * @param bench the one the case is consulted on
 * @param left as the history of the bike has it
 */
export function historyLines(
  model: Model,
  bench: PreparedBike,
  kase: Case,
  left: BikeHistory['left'],
): string[] {
  const shift = shiftOf(model, bench, kase);
  const lines = [
    ...lessonLines(lessonsOf(atReadiness(model, shift), bench, kase), bench.sheet, model.rules),
    ...(shift === 0 ? [] : [readinessLine(shift)]),
    ...left.map((one) => `${capital(leftGoodWords(one, model.rules.reasons, bench.sheet))}.`),
  ];
  const good = lines.length > 0 && bench.sheet !== undefined && onMakersSheet(bench.sheet) === true;
  return good ? [...lines, GOOD_END] : lines;
}

/** What the log of a bike adds to a case on it: read once, whatever number of cases is about the bike. */
import type { PreparedBike } from '../../advice/prepared-bike.ts';
import type { BikeSheet } from '../../bike/sheet.ts';
import type { Case, CaseVocabulary } from '../../casework/case.ts';
import type { Model } from '../../diagnosis/model.ts';
import type { Io } from '../../host/io.ts';
import type { Benches } from './benches.ts';
import type { BikeHistory } from './history-of.ts';

/** What the log of a bike says, and the bench for cases on it. */
interface Past {
  readonly history: BikeHistory;
  readonly bench: PreparedBike;
  /** earlier rounds whose rider is known */
  readonly riders: WeakSet<Case['earlier']>;
  /** of a case that adds no trial of its own: the same for all of them */
  lines?: readonly string[];
}

/** A case joined with what was ridden on its bike before, and that told in so many lines. */
interface Joined {
  readonly kase: Case;
  readonly bench: PreparedBike;
  readonly history: readonly string[];
}

/** @returns nothing for a bike that has no log */
export function pastsOf(
  io: Io,
  model: Model,
  vocabulary: CaseVocabulary,
  bench: Benches,
): (kase: Case, sheet: BikeSheet) => Promise<Joined | undefined> {
  const pasts = new WeakMap<BikeSheet, Promise<Past | undefined>>();
  const pastOf = (sheet: BikeSheet): Promise<Past | undefined> => {
    let past = pasts.get(sheet);
    if (past === undefined) pasts.set(sheet, (past = readPast(sheet)));
    return past;
  };
  const readPast = async (sheet: BikeSheet): Promise<Past | undefined> => {
    // The log's forms are dear to load, and most bikes have no log.
    const { mayHaveLog } = await import('../../logbook/home.ts');
    if (!mayHaveLog(io.env, sheet.id)) return undefined;
    const { historyOf } = await import('./history-of.ts');
    const history = await historyOf(sheet, vocabulary, io);
    if (history === undefined) return undefined;
    // What can be done is read off the sheet as it is; what the sheet says of the causes, as it was before the trials.
    const [here, then] = await Promise.all([bench(sheet), bench(history.before)]);
    return {
      history,
      bench: {
        ...here,
        odds: then.odds,
        prior: then.prior,
        findings: then.findings,
        leftGood: history.away,
      },
      riders: new WeakSet(),
    };
  };
  return async (kase, sheet) => {
    const past = await pastOf(sheet);
    if (past === undefined) return undefined;
    const { withHistory, historyLines } = await import('./history-of.ts');
    const longer = withHistory(kase, past.history);
    if (!past.riders.has(longer.earlier)) {
      const { knowRider } = await import('./kept-rider.ts');
      await knowRider(io, model, past.history.before, past.bench, longer.earlier);
      past.riders.add(longer.earlier);
    }
    const lines = (): readonly string[] => historyLines(model, past.bench, longer, past.history.left);
    const plain = longer.earlier === past.history.rounds && longer.results.length === 0;
    return { kase: longer, bench: past.bench, history: plain ? (past.lines ??= lines()) : lines() };
  };
}

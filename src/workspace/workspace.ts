/** What every command on cases needs: the model, the bikes already prepared, and the way from a record to a case. */
import { existsSync } from 'node:fs';
import { resolve } from 'node:path';
import { prepareBike, type PreparedBike } from '../advice/prepared-bike.ts';
import { printChange, type Change } from '../bike/change.ts';
import type { BikeKind, BikeSheet } from '../bike/sheet.ts';
import { withToldSprings } from '../casework/told-spring.ts';
import { vocabularyOf, type Case, type ReadCase } from '../casework/case.ts';
import { isMap } from '../form/plain-data.ts';
import { inOrder, pathLine } from '../form/problem.ts';
import { givesNumber } from '../casework/reading/measured-of.ts';
import { readQuickly } from '../casework/reading/read-quickly.ts';
import { buildModel, type Model } from '../diagnosis/model.ts';
import type { Result } from '../report/result/result.ts';
import type { CompiledRules } from '../rulebase/compiled.ts';
import type { CompiledWords } from '../words/compiled-words.ts';
import type { Matcher, Reading } from '../words/matcher.ts';
import type { Wished } from '../words/tried/tried.ts';
import { changesSaid } from './changes-said.ts';
import { benchNumbers } from './bikes/kept-bike.ts';
import { measuredBench } from './bikes/measured-bench.ts';
import type { BikeHistory } from './bikes/history-of.ts';
import { Refusal, type Io } from '../host/io.ts';
import { keptNumbers } from './rules/precomputed.ts';
import { loadRules } from './rules/load-rules.ts';
import { defaultPhysics, keptPhysics, knockOnOf } from './physics.ts';
import type { LoadedSheet, SheetLoader } from './bikes/load-sheet.ts';
import type { CaseRecord } from './cases/records.ts';

export interface Opened {
  readonly kase: Case;
  readonly bench: PreparedBike;
  readonly warnings: readonly string[];
  /** what earlier trials on this bike showed, from its log; empty when the log was not asked */
  readonly history: readonly string[];
}

export type Opening = Opened | { readonly faults: readonly string[] };

interface Said {
  readonly unconfirmed: Result['unconfirmed'];
  readonly readings: readonly Reading[];
  readonly wishes: readonly Wished[];
}

export interface Workspace {
  readonly rules: CompiledRules;
  readonly model: Model;
  /** the case of a record with its bike, or what is wrong with it, a line a problem */
  open(record: CaseRecord): Opening | Promise<Opening>;
  /** @param said what was told of a bike without a sheet, as `readSaid` gives it */
  bench(sheet: BikeSheet | undefined, said?: BikeSheet): Promise<PreparedBike>;
  /** the bench with the numbers that the answers give, where there is a sheet for them */
  measured(bench: PreparedBike, round: Pick<Case, 'answers' | 'results'>): Promise<PreparedBike>;
  /** what the model says a change does on this bike (of the default bike without a sheet), in so many lines; dear, so kept */
  knockOn(
    sheet: BikeSheet | undefined,
    change: Change,
    most: number,
    kind?: BikeKind | undefined,
  ): Promise<readonly string[]>;
  /** the phrases of the rules, cut, for whatever reads a rider's own words */
  words(): Promise<CompiledWords>;
  /** what the free text of a case could mean, and of that, line by line, what nobody confirmed; never counted */
  said(kase: Case): Promise<Said>;
}

/** What the log of a bike says, and the bench for cases on it. */
interface Past {
  readonly history: BikeHistory;
  readonly bench: PreparedBike;
  /** earlier rounds whose rider is known */
  readonly riders: WeakSet<Case['earlier']>;
  /** of a case that adds no trial of its own: the same for all of them */
  lines?: readonly string[];
}

/** The built-in rules are one object in a process, so they have one model there, however often they are opened. */
const models = new WeakMap<CompiledRules, Model>();

/**
 * @param bikeFile a bike sheet for cases that name none
 * @param withLog whether the log of a bike whose sheet is a file is evidence for cases on it
 */
export async function openWorkspace(
  io: Io,
  packs: readonly string[],
  bikeFile?: string,
  withLog = false,
): Promise<Workspace> {
  const rules = await loadRules(io, packs);
  const keep = keptNumbers(io, rules);
  const model = models.get(rules) ?? buildModel(rules, undefined, keep);
  models.set(rules, model);
  const vocabulary = vocabularyOf(rules);
  const benches = new WeakMap<BikeSheet, Promise<PreparedBike>>();
  let bare: Promise<PreparedBike> | undefined;
  const words = async (): Promise<CompiledWords> =>
    (await import('./rules/kept-words.ts')).keptWords(io, rules);
  let matching: Promise<Matcher> | undefined;
  const matcher = (): Promise<Matcher> =>
    (matching ??= import('../words/matcher.ts').then(async ({ buildMatcher }) =>
      buildMatcher(rules, await words()),
    ));
  const changes = changesSaid(rules, words);
  // A bench is dear next to a case, so each bike's is made once, with the physics of that bike.
  const bench = (sheet: BikeSheet | undefined, said?: BikeSheet): Promise<PreparedBike> => {
    if (sheet === undefined && said !== undefined) return benchSaid(said);
    if (sheet === undefined)
      return (bare ??= defaultPhysics().then((physics) => prepareBike(model, undefined, physics, keep)));
    let made = benches.get(sheet);
    if (made === undefined) {
      made = keptPhysics(io, sheet).then((physics) =>
        prepareBike(model, sheet, physics, benchNumbers(io, rules.digest, sheet)),
      );
      benches.set(sheet, made);
    }
    return made;
  };
  // Few things can be said of a bike without a sheet, and they come again and again in a stream of cases.
  const told = new Map<string, Promise<PreparedBike>>();
  const benchSaid = (said: BikeSheet): Promise<PreparedBike> => {
    const key = JSON.stringify([said.kind, said.ends, said.own]);
    let made = told.get(key);
    if (made === undefined) {
      if (told.size >= MOST_TOLD) told.clear();
      made = defaultPhysics().then((physics) => prepareBike(model, undefined, physics, undefined, said));
      told.set(key, made);
    }
    return made;
  };
  const measured: Workspace['measured'] = (before, round) => measuredBench(model, before, round, bench);
  const knockOns = new Map<string, Promise<readonly string[]>>();
  const ids = new Map<BikeSheet, string>();
  let loading: Promise<SheetLoader> | undefined;
  /** the file of the sheet that the line names */
  const givenPath = bikeFile === undefined ? undefined : await pathOf(bikeFile, io);
  const loader = (): Promise<SheetLoader> =>
    (loading ??= import('./bikes/load-sheet.ts').then(({ sheetLoader }) =>
      sheetLoader(rules.adjusters, givenPath, io),
    ));
  const given = givenPath === undefined ? undefined : await (await loader()).given(givenPath);
  const pasts = new WeakMap<BikeSheet, Promise<Past | undefined>>();
  /** The log of a bike is read once, whatever number of cases is about it. */
  const pastOf = (sheet: BikeSheet): Promise<Past | undefined> => {
    let past = pasts.get(sheet);
    if (past === undefined) pasts.set(sheet, (past = readPast(sheet)));
    return past;
  };
  const readPast = async (sheet: BikeSheet): Promise<Past | undefined> => {
    // The log's forms are dear to load, and most bikes have no log.
    const { mayHaveLog } = await import('../logbook/home.ts');
    if (!mayHaveLog(io.env, sheet.id)) return undefined;
    const { historyOf } = await import('./bikes/history-of.ts');
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
  const joined = async (kase: Case, sheet: BikeSheet | undefined) => {
    if (!withLog || sheet === undefined) return undefined;
    // A bike written out inside a case has a log only when it is the one that was given.
    const known =
      sheet.id === given?.sheet.id ? given.sheet : typeof kase.bike === 'object' ? undefined : sheet;
    const past = known === undefined ? undefined : await pastOf(known);
    if (past === undefined) return undefined;
    const { withHistory, historyLines } = await import('./bikes/history-of.ts');
    const longer = withHistory(kase, past.history);
    if (!past.riders.has(longer.earlier)) {
      const { knowRider } = await import('./bikes/kept-rider.ts');
      await knowRider(io, model, past.history.before, past.bench, longer.earlier);
      past.riders.add(longer.earlier);
    }
    const plain = longer.earlier === past.history.rounds && longer.results.length === 0;
    const lines = plain
      ? (past.lines ??= historyLines(model, past.bench, longer, past.history.left))
      : historyLines(model, past.bench, longer, past.history.left);
    return { kase: longer, bench: past.bench, history: lines };
  };
  const said = new Set<BikeSheet | string>();
  /** A case's own sheet goes before the one that was given, unless it is not there; said once a sheet. */
  const whichBike = ({ id, bike }: Case, record: CaseRecord, sheet: BikeSheet | undefined): string[] => {
    if (given === undefined || sheet === undefined) return [];
    const isGone = sheet === given.sheet && isMissing(bike, record);
    const own = isGone ? resolve(record.folder, bike) : sheet;
    if ((sheet === given.sheet && !isGone) || said.has(own)) return [];
    said.add(own);
    if (isGone) return [`${id}: its own bike (${bike}) is not there, so --bike ${bikeFile} was used.`];
    const named = typeof bike === 'string' ? bike : 'written in the case';
    return [`${id}: this case has its own bike (${named}), so --bike ${bikeFile} was not used.`];
  };
  /** The sheet of a case; the one that was given where the case names a file that is not there. */
  const sheetFor = async (bike: Case['bike'], record: CaseRecord): Promise<LoadedSheet | undefined> =>
    given !== undefined && isMissing(bike, record)
      ? given
      : ((await sheetOf(bike, record, rules.adjusters, loader)) ?? given);
  let bareNow: PreparedBike | undefined;
  const refused = (record: CaseRecord, error: unknown): Opening => {
    if (error instanceof Refusal) return { faults: [`${record.name}: bike: ${error.message}`] };
    throw error;
  };
  /** @param known its sheet, where that was read before it */
  const withSheet = async (
    kase: Case,
    record: CaseRecord,
    lines: readonly string[],
    known?: LoadedSheet,
  ): Promise<Opening> => {
    try {
      const sheet = known ?? (await sheetFor(kase.bike, record));
      const made = await bench(sheet?.sheet, withToldSprings(rules, kase));
      if (sheet === undefined && kase.has === undefined) bareNow = made;
      const passedOver = whichBike(kase, record, sheet?.sheet);
      const found = (await joined(kase, sheet?.sheet)) ?? { kase, bench: made, history: [] };
      return {
        ...found,
        bench: await measured(found.bench, found.kase),
        warnings: [
          ...lines,
          ...(sheet?.warnings ?? []),
          ...passedOver,
          ...(sheet !== undefined && kase.has !== undefined
            ? [
                `${record.name}: what was told of its knobs (has:) was not used, because the bike sheet says what is there.`,
              ]
            : []),
        ],
      };
    } catch (error) {
      return refused(record, error);
    }
  };
  const opened = (
    { value: kase, problems }: ReadCase,
    record: CaseRecord,
    sheet?: LoadedSheet,
  ): Opening | Promise<Opening> => {
    const name = record.locate === undefined ? record.name : record.name.replace(/#.*$/, '');
    const found = record.locate === undefined ? problems : inOrder(problems, record.locate);
    const lines = found.map((p) => pathLine(name, p, record.locate));
    if (kase === undefined) return { faults: lines };
    // Nothing to wait for: a wait costs a stream of cases more than the reading.
    if (kase.bike === undefined && kase.has === undefined && given === undefined && bareNow !== undefined)
      return { kase, bench: bareNow, history: [], warnings: lines };
    return withSheet(kase, record, lines, sheet);
  };
  const readOn = (sheet: LoadedSheet | undefined, record: CaseRecord): Opening | Promise<Opening> => {
    const read = readQuickly(record.data, vocabulary, record.name, sheet?.sheet);
    if (read !== undefined) return opened(read, record, sheet);
    return import('../casework/reading/read-case.ts').then(({ readCase }) =>
      opened(readCase(record.data, vocabulary, record.name, sheet?.sheet), record, sheet),
    );
  };
  /** A number is what its bike makes of it, so the sheet comes first. */
  const openNumber = async (record: CaseRecord): Promise<Opening> => {
    const { bike } = record.data as Readonly<Record<string, unknown>>;
    const named = typeof bike === 'string' || isMap(bike) ? bike : undefined;
    try {
      const sheet = await sheetFor(named, record);
      return await readOn(sheet, record);
    } catch (error) {
      return refused(record, error);
    }
  };
  return {
    rules,
    model,
    bench,
    measured,
    words,
    async knockOn(sheet, change, most, kind) {
      const key = `${sheet === undefined ? (kind ?? '') : (ids.get(sheet) ?? ids.set(sheet, `${ids.size}`).get(sheet))} ${printChange([change])} ${most}`;
      let lines = knockOns.get(key);
      if (lines === undefined) {
        lines = knockOnOf(io, sheet, change, most, kind);
        knockOns.set(key, lines);
      }
      return lines;
    },
    async said(kase) {
      if (kase.said === undefined) return { unconfirmed: [], readings: [], wishes: [] };
      const [{ match }, { besideThese }, { meantOf, openReadings }, { unconfirmedOf }] = await Promise.all([
        matcher(),
        import('../words/hearing.ts'),
        import('../casework/said/open-readings.ts'),
        import('../casework/said/unconfirmed.ts'),
      ]);
      const wishes = await changes.wishes(kase.said);
      // What was told as tried is no sign besides.
      const tried = (kase.tried ?? []).length === 0 ? [] : await changes.tried(kase.said);
      const readings = meantOf(kase, besideThese(match(kase.said), [...tried, ...wishes]));
      const answered = new Map(kase.answers.map((a) => [a.question, a.answer]));
      return {
        unconfirmed: unconfirmedOf(openReadings(model, kase, readings), rules, answered),
        readings,
        wishes,
      };
    },
    open(record) {
      if (record.fault !== undefined) return { faults: [record.fault] };
      return givesNumber(record.data) ? openNumber(record) : readOn(undefined, record);
    },
  };
}
/** Benches of bikes without a sheet that are kept at once. */
const MOST_TOLD = 64;

/** A file, or the id of a bike with a log; its log is only asked where there is no such file. */
async function pathOf(named: string, io: Io): Promise<string> {
  if (existsSync(resolve(io.cwd, named))) return named;
  return (await import('./bikes/known-bikes.ts')).sheetOf(named, io);
}

/** Whether a case names a sheet by a file that is not there: then the line may name another in its place. */
function isMissing(bike: Case['bike'], { folder }: Pick<CaseRecord, 'folder'>): bike is string {
  return typeof bike === 'string' && !existsSync(resolve(folder, bike));
}

async function sheetOf(
  bike: Case['bike'],
  record: CaseRecord,
  own: CompiledRules['adjusters'],
  loader: () => Promise<SheetLoader>,
) {
  if (bike === undefined) return undefined;
  if (typeof bike === 'string') return (await loader()).named(bike, record.folder);
  const { fromData } = await import('./bikes/load-sheet.ts');
  return fromData(bike, 'the bike in the case', own);
}

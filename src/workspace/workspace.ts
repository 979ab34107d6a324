/** What every command on cases needs: the model, the bikes already prepared, and the way from a record to a case. */
import type { PreparedBike } from '../advice/prepared-bike.ts';
import { printChange, type Change } from '../bike/change.ts';
import type { BikeKind, BikeSheet } from '../bike/sheet.ts';
import { withToldSprings } from '../casework/told-spring.ts';
import { vocabularyOf, type Case, type ReadCase } from '../casework/case.ts';
import { givesNumber } from '../casework/reading/measured-of.ts';
import { readQuickly } from '../casework/reading/read-quickly.ts';
import { buildModel, type Model } from '../diagnosis/model.ts';
import type { CompiledRules } from '../rulebase/compiled.ts';
import type { CompiledWords } from '../words/compiled-words.ts';
import { benchesOf, type Benches } from './bikes/benches.ts';
import { measuredBench } from './bikes/measured-bench.ts';
import { pastsOf } from './bikes/past.ts';
import { sheetsFor } from './bikes/sheets.ts';
import { linesOf, namedBike, withoutBike } from './cases/case-faults.ts';
import type { Io } from '../host/io.ts';
import { keptNumbers } from './rules/precomputed.ts';
import { loadRules } from './rules/load-rules.ts';
import { knockOnOf } from './physics.ts';
import { saidOf, type Said } from './cases/said-of.ts';
import type { LoadedSheet } from './bikes/load-sheet.ts';
import type { CaseRecord } from './cases/case-texts.ts';

export interface Opened {
  readonly kase: Case;
  readonly bench: PreparedBike;
  readonly warnings: readonly string[];
  /** what earlier trials on this bike showed, from its log; empty when the log was not asked */
  readonly history: readonly string[];
}

export type Opening = Opened | { readonly faults: readonly string[] };

export interface Workspace {
  readonly rules: CompiledRules;
  readonly model: Model;
  /** the case of a record with its bike, or what is wrong with it, a line a problem */
  open(record: CaseRecord): Opening | Promise<Opening>;
  readonly bench: Benches;
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
  const words = async (): Promise<CompiledWords> =>
    (await import('./rules/kept-words.ts')).keptWords(io, rules);
  const bench = benchesOf(io, model, keep);
  const measured: Workspace['measured'] = (before, round) => measuredBench(model, before, round, bench);
  const sheets = await sheetsFor(bikeFile, rules.adjusters, io);
  const { given } = sheets;
  const past = pastsOf(io, model, vocabulary, bench);
  const joined = (kase: Case, sheet: BikeSheet | undefined): ReturnType<typeof past> | undefined => {
    if (!withLog || sheet === undefined) return undefined;
    // A bike written out inside a case has a log only when it is the one that was given.
    if (sheet.id === given?.sheet.id) return past(kase, given.sheet);
    return typeof kase.bike === 'object' ? undefined : past(kase, sheet);
  };
  let bareNow: PreparedBike | undefined;
  /** @param known its sheet, where that was read before it */
  const withSheet = async (
    kase: Case,
    record: CaseRecord,
    lines: readonly string[],
    known?: LoadedSheet,
  ): Promise<Opening> => {
    try {
      const sheet = known ?? (await sheets.of(kase.bike, record));
      const made = await bench(sheet?.sheet, withToldSprings(rules, kase));
      if (sheet === undefined && kase.has === undefined) bareNow = made;
      const passedOver = sheets.passedOver(kase, record, sheet?.sheet);
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
      return withoutBike(record, vocabulary, error);
    }
  };
  const opened = (
    { value: kase, problems }: ReadCase,
    record: CaseRecord,
    sheet?: LoadedSheet,
  ): Opening | Promise<Opening> => {
    const lines = linesOf(record, problems);
    if (kase === undefined) return besideFaults(record, lines);
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
    try {
      return await readOn(await sheets.of(namedBike(record), record), record);
    } catch (error) {
      return withoutBike(record, vocabulary, error);
    }
  };
  /** The bike of a case with faults is looked at too, so that all that is wrong is told at once. */
  const besideFaults = async (record: CaseRecord, lines: readonly string[]): Promise<Opening> => {
    try {
      await sheets.of(namedBike(record), record);
    } catch (error) {
      return withoutBike(record, vocabulary, error);
    }
    return { faults: lines };
  };
  const knockOns = new Map<string, Promise<readonly string[]>>();
  const ids = new Map<BikeSheet, string>();
  return {
    rules,
    model,
    bench,
    measured,
    words,
    said: saidOf(model, words),
    knockOn(sheet, change, most, kind) {
      const key = `${sheet === undefined ? (kind ?? '') : (ids.get(sheet) ?? ids.set(sheet, `${ids.size}`).get(sheet))} ${printChange([change])} ${most}`;
      let lines = knockOns.get(key);
      if (lines === undefined) {
        lines = knockOnOf(io, sheet, change, most, kind);
        knockOns.set(key, lines);
      }
      return lines;
    },
    open(record) {
      if (record.fault !== undefined) return { faults: [record.fault] };
      return givesNumber(record.data) ? openNumber(record) : readOn(undefined, record);
    },
  };
}

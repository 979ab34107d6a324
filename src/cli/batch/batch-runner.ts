/** Some records of `earshot diagnose` → the text for standard output and the lines for standard error. */
import { relative, resolve } from 'node:path';
import type { BikeKind } from '../../bike/sheet.ts';
import type { Case } from '../../casework/case.ts';
import { isMap } from '../../form/plain-data.ts';
import { once } from '../../diagnosis/fast/once.ts';
import { ImpossibleEvidence } from '../../diagnosis/belief.ts';
import type { Audience } from '../../report/evidence-words.ts';
import { historyText } from '../../report/bike/history-text.ts';
import { reporters, type Format, type Reporter } from '../../report/reporters.ts';
import type { Result } from '../../report/result/result.ts';
import type { Style } from '../../report/style.ts';
import { MOST_SIDE_EFFECTS } from '../../report/text.ts';
import { lettersWords, setLine, toWriteDown } from '../../workspace/bikes/set-line.ts';
import type { Keep } from '../../workspace/cases/kept-by-content.ts';
import type { Opened, Workspace } from '../../workspace/workspace.ts';
import { recordsOf, type Batch } from '../../workspace/cases/records.ts';
import type { CaseRecord } from '../../workspace/cases/case-texts.ts';
import { withKnockOn } from '../../workspace/with-knock-on.ts';

export interface BatchOptions {
  readonly format: Format;
  readonly full: boolean;
  /** for ndjson, csv: rank the open questions too */
  readonly next: boolean;
  /** for ndjson: the effect of every answer */
  readonly explain: boolean;
  /** for text and markdown: whose words; default mechanic */
  readonly audience?: Audience;
  readonly style: Style;
  /** as the line named it, and where the line was started; for commands that are printed */
  readonly bike?: string | undefined;
  readonly cwd?: string;
  /** further rule packs of the line */
  readonly packs?: readonly string[] | undefined;
  /** for people: where results are kept for the next start */
  readonly kept?: Keep<Result> | undefined;
}

/** More cases than this that failed are counted, not named. */
export const MOST_FAILING = 10;

export interface Told {
  readonly out: string;
  readonly err: string;
  /** how many records came to a result, and how many did not */
  readonly told: number;
  readonly failed: number;
  /** names of the first that did not */
  readonly failing: readonly string[];
  /** files among those that failed that could not be read at all */
  readonly unreadable: number;
}

/** @returns what tells a batch, given how many results were told before it */
export function teller(
  workspace: Workspace,
  options: BatchOptions,
): (batch: Batch, before: number) => Promise<Told> {
  const reporter: Reporter = reporters[options.format]({
    style: options.style,
    full: options.full,
    rules: workspace.rules,
    ...(options.audience === undefined ? {} : { audience: options.audience }),
  });
  const forPeople = options.format === 'text' || options.format === 'markdown' || options.format === 'json';
  // In a text the history has a section of its own; as data it goes with the warnings.
  const inSection = options.format === 'text' || options.format === 'markdown';
  const wishes = {
    next: options.next || forPeople,
    explain: options.explain || forPeople ? 5 : 0,
    fit: options.next || options.explain || forPeople,
    sparing: options.format === 'text' && !options.full,
  };
  // A case that an earlier start told needs none of this; there is one room for all cases of a batch.
  const thinking = once(async () => {
    const { consult, roomFor, toResult } = await import('../../report/result/worked-out.ts');
    return { consult, toResult, room: roomFor(workspace.model) };
  });
  const most = options.full ? 12 : 3;
  const shown = options.format === 'text' ? MOST_SIDE_EFFECTS : Infinity;
  const work = async ({ kase, bench, history }: Opened): Promise<Result> => {
    const { consult, toResult, room } = await thinking();
    const consultation = consult(workspace.model, bench, kase, { ...wishes, room });
    const result = toResult(workspace.model, kase, consultation, {
      most,
      sparing: wishes.sparing,
      ...(inSection ? {} : { warnings: history }),
      ...(kase.said === undefined ? {} : await workspace.said(kase)),
    });
    // The model run takes as long as hundreds of cases, so it is for people, and for a bike that is known or asked about.
    return forPeople && (options.full || bench.sheet !== undefined)
      ? withKnockOn(
          result,
          workspace,
          { sheet: bench.sheet, kind: toldKind(kase) },
          options.full ? undefined : shown,
        )
      : result;
  };
  /** what a result hangs on beside its case and bike */
  const how = { format: options.format, full: options.full, next: options.next, explain: options.explain };
  return async (batch, before) => {
    let out = '';
    let err = '';
    let told = 0;
    let failed = 0;
    let unreadable = 0;
    const failing: string[] = [];
    const fail = (record: CaseRecord, why: readonly string[]): void => {
      failed++;
      if (record.unreadable === true) unreadable++;
      if (failing.length < MOST_FAILING) failing.push(record.name);
      err += `${why.join('\n')}\n`;
      out += reporter.failed?.(idOf(record), why) ?? '';
    };
    for (const record of recordsOf(batch)) {
      const opening = workspace.open(record);
      const opened = opening instanceof Promise ? await opening : opening;
      if ('faults' in opened) {
        fail(record, opened.faults);
        continue;
      }
      for (const warning of opened.warnings) err += `${warning}\n`;
      try {
        const { kase, bench, history } = opened;
        const result =
          forPeople && options.kept !== undefined
            ? await options.kept([workspace.model, bench, kase, { ...how, history }], () => work(opened))
            : await work(opened);
        // What the bike's earlier trials said is said once, not once a case.
        const news = before + told === 0 ? [] : history;
        for (const warning of result.warnings)
          if (!news.includes(warning)) err += `${record.name}: ${warning}\n`;
        out += reporter.one(result, before + told, bench.rules);
        told++;
        if (options.format === 'text') out += countedLine(result, kase, record.folder, options);
        if (inSection && history.length > 0) out += historyText(history, options.style);
      } catch (error) {
        if (!(error instanceof ImpossibleEvidence)) throw error;
        fail(record, [`${record.name}: ${error.message} Change one of them.`]);
      }
    }
    return { out, err, told, failed, failing, unreadable };
  };
}

/** What a case calls itself, else what it is called in messages. */
function idOf({ data, name }: CaseRecord): string {
  const id = isMap(data) ? data['id'] : undefined;
  return typeof id === 'string' || typeof id === 'number' ? String(id) : name;
}

/** How a number that is counted or measured now gets onto the sheet; nothing where none is missing. */
function countedLine(
  { verdict, adjustments, first }: Result,
  kase: Case,
  folder: string,
  { bike, packs, cwd = folder }: BatchOptions,
): string {
  const change = adjustments.find((a) => a.id === first);
  if (verdict !== 'change' || change === undefined) return '';
  const numbers = toWriteDown(change);
  if (numbers.length === 0) return '';
  const file = typeof kase.bike === 'string' ? relative(cwd, resolve(folder, kase.bike)) : bike;
  if (file === undefined) return '';
  const done = change.writeDown.length > 0 ? 'Measured' : 'Counted';
  return `\n${done} it? Write it down, ${lettersWords(numbers)}:\n  ${setLine(numbers, file, packs)}\n`;
}

/** The kind of bike that a case without a sheet tells of. */
function toldKind({ has }: Case): BikeKind | undefined {
  return has === undefined || has.bike.unsaidKind === true ? undefined : has.bike.kind;
}

/** Adjustments → which causes each cures, which it makes worse, and the rungs after it. */
import { isCounted } from '../bike/change.ts';
import { changeable } from '../bike/settings.ts';
import { checkFact, reportUnknown } from './look-up.ts';
import { linkOrder, type Order } from './compile-order.ts';
import type { Cause, Question, Setting } from './compiled.ts';
import type { Adjustment, Move } from './compiled-adjustment.ts';
import type { LinkContext } from './question-links.ts';
import { oneKnobWords, standing, type Entry } from './entries.ts';
import type { Numbers } from './numbers-schema.ts';
import type { AdjustmentSource } from './schema/adjustment.ts';
import { didYouMean } from '../form/suggest.ts';

export function linkAdjustments(
  entries: readonly Entry<AdjustmentSource>[],
  context: LinkContext,
  numbers: Numbers,
  questions: readonly Question[],
): Adjustment[] {
  const live = entries.filter((e) => e.data.status !== 'retired');
  const ids = new Set(live.map((e) => e.id));
  const gauges = new Set(live.flatMap((e) => (e.data.reads === undefined ? [] : [e.fill(e.data.reads)])));
  const answers = new Map(questions.map((q) => [q.id, q.answers.map((a) => a.id)]));
  return live.map((e) => ({
    ...linkOne(e, ids, context, numbers),
    ...linkOrder(e, {
      ids,
      causes: context.causes,
      answers,
      facts: context.facts,
      gauges,
      report: context.report,
    }),
  }));
}

function linkOne(
  e: Entry<AdjustmentSource>,
  ids: ReadonlySet<string>,
  context: LinkContext,
  numbers: Numbers,
): Omit<Adjustment, keyof Order> {
  const { settings, facts, causes, cautionIds, report } = context;
  const a = e.data;
  const moves: Move[] = [];
  for (const [template, move] of Object.entries(a.moves ?? {})) {
    const id = e.fill(template);
    const setting = settings.findIndex((s) => s.id === id);
    if (setting < 0) {
      reportUnknown(report, e.place(['moves'], template), 'setting', id, idsOf(settings));
      continue;
    }
    const { toward, share } = typeof move === 'string' ? { toward: move, share: 1 } : move;
    const directions = settings[setting]!.causes.map((c) => causes[c]!.direction);
    const index = directions.indexOf(toward);
    if (index < 0) {
      report(
        e.place(['moves', template]),
        'unknown-id',
        `${id} has no direction ${toward}.`,
        didYouMean(toward, directions) || `Directions: ${directions.join(', ')}.`,
      );
      continue;
    }
    moves.push({ setting, toward: settings[setting]!.causes[index]!, share });
  }
  const fixes = Object.entries(a.fixes ?? {}).flatMap(([template, share]) => {
    const id = e.fill(template);
    const index = causes.findIndex((c) => c.id === id);
    if (index < 0) {
      reportUnknown(report, e.place(['fixes'], template), 'cause', id, idsOf(causes));
      return [];
    }
    return [[index, share] as const];
  });
  // A measurement only reads, and taking something back undoes whatever it was.
  const idle = a.kind === 'measure' || a.kind === 'put-back';
  if (!idle && Object.keys({ ...a.moves, ...a.fixes }).length === 0)
    report(e.place(), 'no-remedy', `${e.id} moves nothing and fixes nothing.`, 'Add moves: or fixes:.');
  const next = (a.next ?? []).map((template, i) => {
    const id = e.fill(template);
    if (!ids.has(id)) reportUnknown(report, e.place(['next', i]), 'adjustment', id, ids);
    return id;
  });
  const cautions = a.cautions.map((template, i) => {
    const id = e.fill(template);
    if (!cautionIds.has(id)) reportUnknown(report, e.place(['cautions', i]), 'caution', id, cautionIds);
    return id;
  });
  const from = Object.entries(a['cautions-from'] ?? {}).map(([template, least]) => {
    const id = e.fill(template);
    if (!cautions.includes(id))
      reportUnknown(report, e.place(['cautions-from', template]), 'caution', id, cautions);
    return [id, least] as const;
  });
  for (const template of Object.keys(a['cautions-when'] ?? {}))
    if (!cautionIds.has(e.fill(template)))
      reportUnknown(report, e.place(['cautions-when', template]), 'caution', e.fill(template), cautionIds);
  const change = a.change === undefined ? undefined : changeOf(e, a.change);
  if (change !== undefined && !settings.some((s) => s.id === change.setting))
    reportUnknown(report, e.place(['change', 'setting']), 'setting', change.setting, idsOf(settings));
  else if (change !== undefined) checkChange(e, change, context);
  const needs = Object.entries(a.needs ?? {}).map(([key, asked]) => {
    const path = e.fill(key);
    const full = e.end === undefined || facts.has(path) ? path : `${e.end}.${path}`;
    const values = typeof asked === 'string' ? [asked] : asked;
    checkFact(facts, full, values, (message, remedy) =>
      report(e.place(['needs'], key), 'sheet', `${e.id} ${message}`, remedy),
    );
    return [full, values] as const;
  });
  return {
    id: e.id,
    ...(e.end === undefined ? {} : { end: e.end }),
    do: e.fill(a.do),
    plain: e.fill(a.plain),
    ...oneKnobWords<NonNullable<Adjustment['oneKnob']>>(a['one-knob'], e.fill, COMPILED_NAMES),
    kind: a.kind,
    ...(change === undefined ? {} : { change }),
    ...(a.after === undefined ? {} : { after: a.after }),
    minutes: a.minutes,
    moves: withCrossTalk(moves, a.kind, settings, causes, numbers),
    fixes,
    needs: Object.fromEntries(needs),
    wayBack: e.fill(a['way-back']),
    next,
    ...(a['knock-on'] === undefined ? {} : { knockOn: e.fill(a['knock-on']) }),
    ...(a['once-kept'] === undefined ? {} : { onceKept: e.fill(a['once-kept']) }),
    feel: e.fill(a.feel),
    cautions,
    ...(from.length === 0 ? {} : { cautionsFrom: Object.fromEntries(from) }),
    ...standing(e),
  };
}

function changeOf(
  e: Entry<AdjustmentSource>,
  { setting, by, unit, most, 'not-below': notBelow }: NonNullable<AdjustmentSource['change']>,
): NonNullable<Adjustment['change']> {
  return {
    setting: e.fill(setting),
    by,
    unit,
    ...(most === undefined ? {} : { most }),
    ...(notBelow === undefined ? {} : { notBelow }),
  };
}

/** The unit of a change must be one of its row, and what goes by whole steps must go by whole steps. */
function checkChange(
  e: Entry<AdjustmentSource>,
  { setting, by, unit }: NonNullable<Adjustment['change']>,
  { adjusters, report }: LinkContext,
): void {
  const settings = changeable(adjusters);
  const units = settings.get(setting);
  if (units === undefined)
    report(
      e.place(['change', 'setting']),
      'sheet',
      `${e.id} changes ${setting}, which the bike sheet does not have.`,
      `Give the setting an adjuster: block, or leave change: out. It has ${[...settings.keys()].join(', ')}.`,
    );
  else if (!units.includes(unit))
    report(
      e.place(['change', 'unit']),
      'sheet',
      `${e.id} changes ${setting} in ${unit}.`,
      `Use ${units.join(', ')}.`,
    );
  else if (by === 0 || (isCounted(unit) && !Number.isInteger(by)))
    report(
      e.place(['change', 'by']),
      'sheet',
      `${e.id} changes ${setting} by ${by} ${unit}.`,
      isCounted(unit) ? 'Write a whole number that is not 0.' : 'Say how much.',
    );
}

const COMPILED_NAMES = { 'way-back': 'wayBack', 'knock-on': 'knockOn' } as const;

function idsOf(entries: readonly { readonly id: string }[]): string[] {
  return entries.map((e) => e.id);
}

/**
 * A knob moves its partner too: the low-speed path stays in parallel with the high-speed one.
 * The shares here are the pack's stand-ins; with a damper model of the bike at hand they are replaced.
 */
export function withCrossTalk(
  moves: readonly Move[],
  kind: Adjustment['kind'],
  settings: readonly Setting[],
  causes: readonly Cause[],
  numbers: Numbers,
): Move[] {
  if (kind !== 'click') return [...moves];
  const out = [...moves];
  for (const move of moves) {
    const setting = settings[move.setting]!;
    const partner = settings.findIndex((s) => s.id === setting.partner);
    if (partner < 0 || out.some((m) => m.setting === partner)) continue;
    const direction = causes[move.toward]!.direction;
    const toward = settings[partner]!.causes.find((c) => causes[c]!.direction === direction);
    if (toward === undefined) continue;
    const low = setting.adjuster?.endsWith('.low') ?? false;
    const share = move.share * (low ? numbers.advice['low-on-high'] : numbers.advice['high-on-low']);
    out.push({ setting: partner, toward, share });
  }
  return out;
}

/** Adjustments → which causes each cures, which it makes worse, and the rungs after it. */
import { isCounted } from '../bike/change.ts';
import { changeable } from '../bike/settings.ts';
import { checkFact, type Ids } from './look-up.ts';
import { defined } from '../form/plain-data.ts';
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
  const measured = new Set(live.flatMap((e) => e.fill(e.data.reads) ?? []));
  const answers = new Map(questions.map((q) => [q.id, q.answers.map((a) => a.id)]));
  return live.map((e) => ({
    ...linkOne(e, ids, context, numbers),
    ...linkOrder(e, { ...context, ids, answers, measured }),
  }));
}

function linkOne(e: Entry<AdjustmentSource>, ids: Ids, context: LinkContext, numbers: Numbers) {
  const { settings, causes, settingIndex, causeIndex, facts, cautionIds } = context;
  const { data: a, fill } = e;
  const moves = Object.entries(a.moves ?? {}).flatMap(([template, move]): Move[] => {
    const id = e.named('setting', template, settingIndex, ['moves'], template);
    const setting = settingIndex.get(id);
    if (setting === undefined) return [];
    const { toward, share } = typeof move === 'string' ? { toward: move, share: 1 } : move;
    const ways = settings[setting]!.causes;
    const directions = ways.map((c) => causes[c]!.direction);
    if (directions.includes(toward)) return [{ setting, toward: ways[directions.indexOf(toward)]!, share }];
    const remedy = didYouMean(toward, directions) || `Directions: ${directions.join(', ')}.`;
    e.wrong(['moves', template], 'unknown-id', `${id} has no direction ${toward}.`, remedy);
    return [];
  });
  const fixes = Object.entries(a.fixes ?? {}).flatMap(([template, share]) => {
    const index = causeIndex.get(e.named('cause', template, causeIndex, ['fixes'], template));
    return index === undefined ? [] : [[index, share] as const];
  });
  // A measurement only reads, and taking something back undoes whatever it was.
  const idle = a.kind === 'measure' || a.kind === 'put-back';
  if (!idle && Object.keys({ ...a.moves, ...a.fixes }).length === 0)
    e.wrong([], 'no-remedy', `${e.id} moves nothing and fixes nothing.`, 'Add moves: or fixes:.');
  const cautions = a.cautions.map((caution, i) => e.named('caution', caution, cautionIds, ['cautions', i]));
  const said = new Set(cautions);
  const from = Object.entries(a['cautions-from'] ?? {}).map(
    ([caution, least]) => [e.named('caution', caution, said, ['cautions-from', caution]), least] as const,
  );
  const needs = Object.entries(a.needs ?? {}).map(([key, asked]) => {
    const path = fill(key);
    const full = e.end === undefined || facts.has(path) ? path : `${e.end}.${path}`;
    const values = [asked].flat();
    checkFact(facts, full, values, (message, remedy) =>
      e.wrong(['needs'], 'sheet', `${e.id} ${message}`, remedy, key),
    );
    return [full, values] as const;
  });
  return defined<Omit<Adjustment, keyof Order>>({
    id: e.id,
    end: e.end,
    do: fill(a.do),
    plain: fill(a.plain),
    oneKnob: oneKnobWords(a['one-knob'], fill, COMPILED_NAMES),
    kind: a.kind,
    change: changeOf(e, context),
    after: a.after,
    minutes: a.minutes,
    moves: withCrossTalk(moves, a.kind, settings, causes, numbers),
    fixes,
    needs: Object.fromEntries(needs),
    wayBack: fill(a['way-back']),
    next: (a.next ?? []).map((next, i) => e.named('adjustment', next, ids, ['next', i])),
    knockOn: fill(a['knock-on']),
    knockOnWith: a['knock-on-with'] === undefined ? undefined : knockOnWith(e, a['knock-on-with'], facts),
    onceKept: fill(a['once-kept']),
    feel: fill(a.feel),
    cautions,
    cautionsFrom: from.length === 0 ? undefined : Object.fromEntries(from),
    ...standing(e),
  });
}

/** Its setting must be there, its unit one of the setting's row, and what goes by whole steps must go by whole steps. */
function changeOf(e: Entry<AdjustmentSource>, context: LinkContext): Adjustment['change'] {
  const { change } = e.data;
  if (change === undefined) return undefined;
  const { by, unit, most, 'not-below': notBelow } = change;
  const setting = e.named('setting', change.setting, context.settingIndex, ['change', 'setting']);
  const table = changeable(context.adjusters);
  const units = table.get(setting);
  const wrong = (key: string, message: string, remedy: string): void =>
    e.wrong(['change', key], 'sheet', `${e.id} changes ${setting}${message}.`, remedy);
  if (!context.settingIndex.has(setting)) return undefined;
  if (units === undefined)
    wrong(
      'setting',
      ', which the bike sheet does not have',
      `Give the setting an adjuster: block, or leave change: out. It has ${[...table.keys()].join(', ')}.`,
    );
  else if (!units.includes(unit)) wrong('unit', ` in ${unit}`, `Use ${units.join(', ')}.`);
  else if (by === 0 || (isCounted(unit) && !Number.isInteger(by)))
    wrong(
      'by',
      ` by ${by} ${unit}`,
      isCounted(unit) ? 'Write a whole number that is not 0.' : 'Say how much.',
    );
  return defined<NonNullable<Adjustment['change']>>({ setting, by, unit, most, notBelow });
}

/** Each knob as the sheet has it, and what is said of it. */
function knockOnWith(
  e: Entry<AdjustmentSource>,
  texts: Readonly<Record<string, string>>,
  facts: LinkContext['facts'],
): (readonly [string, string])[] {
  return Object.entries(texts).map(([key, text]) => {
    const path = e.fill(key);
    checkFact(facts, path, ['none'], (message, remedy) =>
      e.wrong(['knock-on-with'], 'sheet', `${e.id} ${message}`, remedy, key),
    );
    return [path, e.fill(text)] as const;
  });
}

const COMPILED_NAMES = { 'way-back': 'wayBack', 'knock-on': 'knockOn' } as const;

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

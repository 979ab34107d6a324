/** The way back from what was tried, as a result holds it: the step the other way, and what that does. */
import { cautionsOf } from '../../advice/cautions.ts';
import { chancesOf } from '../../advice/help-harm.ts';
import type { PreparedBike } from '../../advice/prepared-bike.ts';
import { nearMost, roomFor } from '../../advice/step/room-left.ts';
import { amountIn, printChange, wayBack, type Change } from '../../bike/change.ts';
import { settingWords, spanWords } from '../../bike/setting-words.ts';
import type { Case } from '../../casework/case.ts';
import type { Consultation } from '../../casework/consult.ts';
import type { TriedEffect } from '../../casework/tried/weigh-tried.ts';
import type { Model } from '../../diagnosis/model.ts';
import { statedOf } from '../../diagnosis/none.ts';
import { capital, withoutStop, withStop } from '../../form/text.ts';
import type { Adjustment } from '../../rulebase/compiled-adjustment.ts';
import { reasonIn } from '../../rulebase/reasons.ts';
import { changeWords } from '../bike/change-words.ts';
import { noteOf } from '../phrases.ts';
import type { ResultAdjustment } from './result.ts';
import { round } from '../round.ts';
import { aimOf } from '../verdict/until-words.ts';

/** Whether it does once more what goes back before the first step. */
export function isTriedAgain(
  { rules }: PreparedBike,
  { before, advice }: Consultation,
  adjustment: number,
): boolean {
  const { change } = rules.adjustments[adjustment]!;
  return (
    adjustment !== advice.first &&
    before.some(({ changes }) =>
      changes.some(
        ({ setting, by }) => change?.setting === setting && Math.sign(by) === Math.sign(change.by),
      ),
    )
  );
}

/** Whether it turns what is put back first, or before the first step, the same way: that is no step of its own to be refused. */
export function isGoneBack(bench: PreparedBike, c: Consultation, adjustment: number): boolean {
  const { first } = c.advice;
  const isBack = first !== undefined && bench.rules.adjustments[first]!.kind === 'put-back';
  const all = [...c.before, ...(isBack && c.back !== undefined ? [c.back] : [])];
  const { change } = bench.rules.adjustments[adjustment]!;
  return all.some((one) =>
    wayBack(one.couldBe ?? one.changes).some(
      ({ setting, by }) => change?.setting === setting && Math.sign(by) === Math.sign(change.by),
    ),
  );
}

/** Whether what is put back turns the same thing the same way: how much more it takes is known after that. */
export function isPutBackAlready(bench: PreparedBike, c: Consultation, adjustment: number): boolean {
  if (c.back === undefined) return false;
  const { ranked, first } = c.advice;
  const { adjustments } = bench.rules;
  const isBack = (index: number): boolean => adjustments[index]!.kind === 'put-back';
  const steps = wayBack(c.back.couldBe ?? c.back.changes);
  const isSame = (index: number): boolean => {
    const { change } = adjustments[index]!;
    return steps.some(
      ({ setting, by }) => change?.setting === setting && Math.sign(by) === Math.sign(change.by),
    );
  };
  // Of the two the one that comes first is named.
  if (isBack(adjustment)) return first !== undefined && first !== adjustment && isSame(first);
  return adjustment !== first && ranked.some((one) => isBack(one.adjustment)) && isSame(adjustment);
}

export function putBack(
  model: Model,
  bench: PreparedBike,
  c: Consultation,
  a: Adjustment,
  back: TriedEffect,
  answers: Case['answers'],
): ResultAdjustment {
  const { effects, changes, tried } = back;
  const step = wayBack(changes);
  const same = likeBack(bench, back);
  const counted = tried.by !== undefined || tried.change !== undefined;
  const far = back.loose !== true && counted;
  const cured = likeliest(model, c, effects);
  const each = effects.map((effect) =>
    chancesOf(model, c.belief, { cures: effect.brings, brings: effect.cures }),
  );
  const helps = mean(each.map((one) => one.helps));
  const harms = mean(each.map((one) => one.harms));
  const { helped, nothing, harmed } = model.rules.numbers.results;
  const after = (report: 'better' | 'worse'): number =>
    helps * helped[report] + harms * harmed[report] + Math.max(0, 1 - helps - harms) * nothing[report];
  const words = (setting: string): string =>
    bench.rules.settings.find(({ id }) => id === setting)?.name ?? settingWords(setting, bench.sheet);
  const what = step.length === 1 && far ? words(step[0]!.setting) : back.back;
  const room = far && step.length === 1 ? roomFor(bench.sheet, step[0]!, bench.rules.reasons) : undefined;
  const { step: one, note } = room?.can === true ? room : {};
  return {
    id: a.id,
    do: `${a.do}: ${what}`,
    plain: `${withoutStop(a.plain)}: ${what}`,
    cures: cured === undefined ? null : bench.rules.causes[cured]!.id,
    likely: cured === undefined ? null : round(statedOf(c.belief, c.none, cured)),
    change: one !== undefined ? printChange([one]) : far && step.length > 0 ? printChange(step) : null,
    setting: one?.setting ?? null,
    by: one?.by ?? null,
    unit: one?.unit ?? null,
    amount: null,
    from: one?.from === undefined ? null : round(one.from, 2),
    to: one?.to === undefined ? null : round(one.to, 2),
    positions: null,
    helps: round(helps),
    harms: round(harms),
    feelsBetter: round(after('better')),
    feelsWorse: round(after('worse')),
    benefit: 0,
    minutes: a.minutes,
    before: null,
    wayBack: a.wayBack,
    feel: a.feel,
    note: noteOf(
      one?.to === undefined ? undefined : note,
      counted ? undefined : uncounted(bench, same),
      ...mostOf(bench, same, back),
      isOfSag(same) ? sagAfter(bench, answers, step) : undefined,
      helps < harms ? reasonIn(bench.rules.reasons, 'known-state') : undefined,
    ),
    heed: null,
    writeDown: [],
    cautions: [...new Set([a, ...same].flatMap((one) => cautionsOf(one, c.heard.known)))],
    knockOn: a.knockOn === undefined ? [] : [a.knockOn],
    ridden: [],
  };
}

interface BackBefore {
  readonly before: NonNullable<ResultAdjustment['before']>;
  readonly cautions: string[];
  /** how that is undone */
  readonly wayBack: string;
}

/** What was tried in vain goes back before the first step: in words, and with the cautions of turning it. */
export function putBackBefore(
  { rules }: Model,
  bench: PreparedBike,
  c: Consultation,
): BackBefore | undefined {
  const a = rules.adjustments.find(({ kind, after }) => kind === 'put-back' && (after ?? 'same') === 'same');
  if (a === undefined || c.before.length === 0) return undefined;
  const same = c.before.flatMap((one) => likeBack(bench, one));
  const most = c.before.flatMap((one) => mostOf(bench, likeBack(bench, one), one));
  const after = [...new Set([...most, ...(isOfSag(same) ? [MEASURE_SAG] : [])])];
  const back = new Set(c.before.flatMap((one) => one.back ?? []));
  // Several are one step all the same, back to what is known; each has its own way on again.
  const together = back.size > 1;
  const alone = capital(reasonIn(bench.rules.reasons, together ? 'back-as-one' : 'one-at-a-time'));
  const what = [[...back].join('; '), ...after.map(capital), alone].map(withStop).join(' ');
  const again = c.before.map(({ changes, change }) =>
    changeWords(changes.length === 0 ? change : { changes }, bench.sheet, bench.rules),
  );
  return {
    before: { do: `${a.do}: ${what}`, plain: `${withoutStop(a.plain)}: ${what}` },
    cautions: [...new Set(same.flatMap((one) => cautionsOf(one, c.heard.known)))],
    wayBack: together ? `${a.wayBack}: ${again.join('; ')}` : a.wayBack,
  };
}

const MEASURE_SAG = 'then measure sag again';

/** How far back where nobody counted: by what was measured, else by feel, in the smallest steps that it takes. */
function uncounted({ sheet, rules, possible }: PreparedBike, same: readonly Adjustment[]): string {
  const measured = same.flatMap((a) => {
    const can = possible[rules.adjustments.indexOf(a)]!;
    const { from, to, unit } = (can.can && sheet === undefined ? can.step : undefined) ?? {};
    if (from === undefined || to === undefined || unit === undefined) return [];
    const key = a.kind === 'tyre' ? ('back-by-gauge' as const) : ('back-by-sag' as const);
    return [reasonIn(rules.reasons, key, { span: spanWords(from, to, unit) })];
  });
  if (measured.length === 1) return measured[0]!;
  const inSteps = same.some(({ kind }) => kind === 'click' || kind === 'pressure' || kind === 'tyre');
  return reasonIn(rules.reasons, inSteps ? 'back-uncounted' : 'back-unknown');
}

/** What sag should come to, where it was told off that way. */
function sagAfter({ sheet, rules }: PreparedBike, answers: Case['answers'], step: readonly Change[]): string {
  const goals = sheet === undefined ? step.flatMap((one) => aimOf(one, answers, rules) ?? []) : [];
  return goals.length === 1 ? reasonIn(rules.reasons, 'sag-goal', { figure: goals[0]! }) : MEASURE_SAG;
}

/** A spacer moves sag as well: the air that was let out for it goes back in by the gauge. */
function isOfSag(same: readonly Adjustment[]): boolean {
  return same.some(({ kind }) => kind === 'pressure' || kind === 'preload' || kind === 'spacer');
}

/** The adjustments that turn it the same way: it is that step, whatever it is for, and has that step's dangers. */
function likeBack({ rules, possible }: PreparedBike, back: TriedEffect): Adjustment[] {
  return rules.adjustments.filter(({ change }, i) =>
    wayBack(back.couldBe ?? back.changes).some(
      ({ setting, by }) =>
        possible[i]!.can && change?.setting === setting && Math.sign(change.by) === Math.sign(by),
    ),
  );
}

/** The most that its air spring may hold, where the way back goes near that. */
function mostOf({ sheet, rules }: PreparedBike, same: readonly Adjustment[], back: TriedEffect): string[] {
  if (sheet === undefined) return [];
  const { numbers, reasons } = rules;
  const ends = wayBack(back.couldBe ?? back.changes).flatMap((step) => {
    const room = roomFor(sheet, step, reasons);
    const { to } = (room.can ? room.step : undefined) ?? {};
    return to === undefined ? [] : [{ ...step, by: to }];
  });
  const said = same.flatMap((a) => {
    const end = ends.find(({ setting }) => setting === a.change?.setting);
    const to = end === undefined ? undefined : amountIn(end, sheet.units.pressure);
    return nearMost(a, sheet, { ...numbers.advice, reasons }, to) ?? [];
  });
  return [...new Set(said)];
}

/** The likeliest of what the change may have brought: taking it back is for that. Undefined where nobody knows at which end it was. */
function likeliest(
  { rules }: Model,
  { belief }: Consultation,
  effects: TriedEffect['effects'],
): number | undefined {
  const [only, ...others] = effects;
  if (only === undefined || others.length > 0) return undefined;
  const brought = rules.causes.flatMap((_, cause) => (only.brings[cause]! > 0 ? [cause] : []));
  return brought.toSorted((a, b) => belief.causes[b]! - belief.causes[a]!)[0];
}

const mean = (all: readonly number[]): number => all.reduce((sum, x) => sum + x, 0) / all.length;

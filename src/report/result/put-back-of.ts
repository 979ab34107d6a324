/** The way back from what was tried, as a result holds it: the step the other way, and what that does. */
import { cautionsOf } from '../../advice/cautions.ts';
import { chancesOf } from '../../advice/help-harm.ts';
import type { PreparedBike } from '../../advice/prepared-bike.ts';
import { printChange, wayBack, type Change } from '../../bike/change.ts';
import { dialOf } from '../../bike/setting-access.ts';
import { settingWords } from '../../bike/setting-words.ts';
import type { Consultation } from '../../casework/consult.ts';
import type { TriedEffect } from '../../casework/tried/weigh-tried.ts';
import type { Model } from '../../diagnosis/model.ts';
import { withoutStop } from '../../form/full-stop.ts';
import type { Adjustment } from '../../rulebase/compiled.ts';
import { noteOf } from '../phrases.ts';
import type { ResultAdjustment } from './result-adjustment.ts';
import { round } from '../round.ts';

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
): ResultAdjustment {
  const { effects, changes, tried } = back;
  const step = wayBack(changes);
  // It is that step, whatever it is for, and has that step's dangers.
  const same = bench.rules.adjustments.filter(({ change }, i) =>
    wayBack(back.couldBe ?? changes).some(
      ({ setting, by }) =>
        bench.possible[i]!.can && change?.setting === setting && Math.sign(change.by) === Math.sign(by),
    ),
  );
  const far = back.loose !== true && (tried.by !== undefined || tried.change !== undefined);
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
  const one = far && step.length === 1 ? onTheBike(bench, step[0]!) : undefined;
  return {
    id: a.id,
    do: `${a.do}: ${what}`,
    plain: `${withoutStop(a.plain)}: ${what}`,
    cures: null,
    likely: null,
    change: one !== undefined ? printChange([one]) : far && step.length > 0 ? printChange(step) : null,
    setting: one?.setting ?? null,
    by: one?.by ?? null,
    unit: one?.unit ?? null,
    from: one?.from ?? null,
    to: one?.to ?? null,
    positions: null,
    helps: round(helps),
    harms: round(harms),
    feelsBetter: round(after('better')),
    feelsWorse: round(after('worse')),
    benefit: 0,
    minutes: a.minutes,
    wayBack: a.wayBack,
    feel: a.feel,
    note: noteOf(
      one?.note,
      same.some(({ kind }) => kind === 'pressure' || kind === 'preload')
        ? 'then measure sag again'
        : undefined,
      helps < harms ? 'alone it may mend little; it is a known state to find the cause from' : undefined,
    ),
    heed: null,
    writeDown: [],
    cautions: [...new Set([a, ...same].flatMap((one) => cautionsOf(one, c.heard.known)))],
    knockOn: a.knockOn === undefined ? [] : [a.knockOn],
    ridden: [],
  };
}

/** The way back where the sheet says what it stands at: never past a stop. */
function onTheBike(
  { sheet }: PreparedBike,
  step: Change,
): Change & { readonly from?: number; readonly to?: number; readonly note?: string } {
  const dial = sheet === undefined ? undefined : dialOf(sheet, step);
  if (dial === undefined || 'message' in dial || dial.now === undefined) return step;
  const to = Number(Math.min(dial.max, Math.max(dial.min, dial.now + step.by)).toFixed(3));
  const by = Number((to - dial.now).toFixed(3));
  if (by === 0) return step;
  const cut = Math.abs(by - step.by) > 1e-6;
  return {
    ...step,
    by,
    from: round(dial.now, 2),
    to: round(to, 2),
    ...(cut ? { note: `that is all the room there is before ${by < 0 ? dial.minIs : dial.maxIs}` } : {}),
  };
}

const mean = (all: readonly number[]): number => all.reduce((sum, x) => sum + x, 0) / all.length;

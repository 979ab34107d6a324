/**
 * One bike made ready for advice: which adjustments it allows, how far each goes, and what each is worth under every
 * set of causes. Made once a bike sheet, because it is far dearer than a case, and each part when it is first asked for: a
 * case that an earlier start told asks for few.
 */
import { dimensionOf } from '../bike/units.ts';
import type { Change, ChangeUnit } from '../bike/change.ts';
import { sheetFact } from '../bike/facts.ts';
import { isAlone, rowFor } from '../bike/settings.ts';
import { unsaidBike } from '../bike/form/said.ts';
import type { BikeSheet } from '../bike/sheet.ts';
import { keepNothing, type Keep } from '../diagnosis/fast/precomputed.ts';
import type { Model } from '../diagnosis/model.ts';
import type { ChangeEffect } from '../diagnosis/results.ts';
import { oddsWithSheet, sheetFindings, type SheetFinding } from '../diagnosis/sheet-evidence.ts';
import { priorOf } from '../diagnosis/belief.ts';
import type { CompiledRules } from '../rulebase/compiled.ts';
import type { Adjustment, Move } from '../rulebase/compiled-adjustment.ts';
import { inWordsOf } from './on-this-bike.ts';
import { effectOf, payoffOf, type Payoff } from './payoff.ts';
import { withCoil, neededOf, possible, type Possibility, type Step } from './feasibility.ts';
import type { Physics } from './physics.ts';
import { prospectOf, type Prospect } from './help-harm.ts';
import { once } from '../diagnosis/fast/once.ts';

export interface PreparedBike {
  readonly sheet: BikeSheet | undefined;
  /** the rules in the words of this bike: the same indices, other texts where it has one rebound knob */
  readonly rules: CompiledRules;
  readonly findings: readonly SheetFinding[];
  /** prior odds of every cause, bike sheet included */
  readonly odds: Float64Array;
  /** prior weights of every set, from these odds */
  readonly prior: Float64Array;
  /** what moved it away, in no trial, from where trials left it */
  readonly leftGood?: readonly Change[];
  /** set where its numbers are those of the answers: which, and the bench without them */
  readonly told?: { readonly plain: PreparedBike; readonly key: string };
  /** for each adjustment of the rule base */
  readonly possible: readonly Possibility[];
  readonly payoff: Payoff;
  /** the same for all that this bike could have, knobs missing or at their stop included; undefined when nothing is */
  readonly wished: Payoff | undefined;
  /** what a gate or a need asks about the bike */
  readonly fact: (path: string) => string | undefined;
  effect(adjustment: number): ChangeEffect;
  /** what all that the measured sag asks for would do, and how far that is; undefined where no sag asks for it */
  whole(
    adjustment: number,
  ): { readonly effect: ChangeEffect; readonly by: number; readonly unit: ChangeUnit } | undefined;
  prospect(adjustment: number): Prospect;
  /** what an adjustment does, and how likely it is to help, with a step of another size */
  stepped(
    adjustment: number,
    step: Step,
  ): { readonly effect: ChangeEffect; readonly prospect: () => Prospect };
}

/**
 * @param keep numbers kept of these very rules and this very bike
 * @param said what was told of the bike, where there is no sheet of it
 */
export function prepareBike(
  model: Model,
  sheet?: BikeSheet,
  physics?: Physics,
  keep: Keep = keepNothing,
  said: BikeSheet = unsaidBike(model.rules.adjusters),
): PreparedBike {
  const { rules } = model;
  const bike = sheet ?? said;
  const findings = sheet === undefined ? [] : sheetFindings(model, sheet);
  const odds = oddsWithSheet(model, findings, bike);
  const can = once(() =>
    rules.adjustments.map((a) =>
      withCoil(
        model,
        a,
        possible(
          a,
          sheet,
          a.change === undefined
            ? undefined
            : physics?.clicks[`${a.change.setting}${a.change.by > 0 ? '+' : '-'}`],
          said,
          a.end === undefined ? undefined : physics?.springs?.[a.end],
          { ...rules.numbers.advice, near: rules.sheetCheck.near, reasons: rules.reasons },
        ),
        physics,
        bike,
      ),
    ),
  );
  const needs = once(() => rules.adjustments.map((a) => neededOn(a, physics, sheet)));
  // The choice weighs all that the sag asks for: a step cut short is where it begins, and is repeated.
  const moves = once(() =>
    rules.adjustments.map((a, i) => movesOn(model, a, physics, bike, needs()[i] !== undefined)),
  );
  const possibleOnes = once(() => can().flatMap((p, i) => (p.can ? [i] : [])));
  // What could be done if every knob were there and had room: the ladder starts from it.
  const fit = once(() => can().flatMap((p, i) => (p.can || !p.unfit ? [i] : [])));
  const prior = once(() => keep('prior', () => ({ prior: priorOf(model, odds) })).prior);
  const payoff = once(() => payoffOf(model, possibleOnes(), (index) => moves()[index]!, keep));
  const wished = once(() =>
    fit().length === possibleOnes().length ? undefined : payoffOf(model, fit(), (index) => moves()[index]!),
  );
  const facts = new Map<string, string | undefined>();
  const effects = new Map<number, ChangeEffect>();
  const prospects = new Map<number, Prospect>();
  const effect = (index: number): ChangeEffect =>
    remember(effects, index, () => part(index, doneOf(can()[index]!, needs()[index])));
  const part = (index: number, share: number): ChangeEffect =>
    effectOf(model, rules.adjustments[index]!, inPart(moves()[index]!, share));
  const { 'air-at-once': atOnce } = rules.numbers.advice;
  return {
    sheet,
    rules: inWordsOf(rules, bike),
    findings,
    odds,
    get prior() {
      return prior();
    },
    get possible() {
      return can();
    },
    get payoff() {
      return payoff();
    },
    get wished() {
      return wished();
    },
    fact: (path) => {
      if (!facts.has(path)) facts.set(path, sheetFact(bike, path, rules.sheetCheck.near));
      return facts.get(path);
    },
    effect,
    whole: (index) => {
      const needed = needs()[index];
      const adjustment = rules.adjustments[index]!;
      if (needed === undefined) return undefined;
      return { effect: effectOf(model, adjustment, moves()[index]), by: needed.far, unit: needed.unit };
    },
    prospect: (index) =>
      remember(prospects, index, () =>
        prospectOf(model, part(index, feltOf(can()[index]!, needs()[index], atOnce)), (name, make) =>
          keep(`prospect/${rules.adjustments[index]!.id}/${name}`, make),
        ),
      ),
    stepped: (index, step) => {
      const own = can()[index]!;
      // Less than the rule's step does as much less; more than it does no more than all of it.
      const rate = own.can && own.step !== undefined ? Math.min(1, Math.abs(step.by / own.step.by)) : 1;
      const one: Possibility = { can: true, step };
      const needed = needs()[index];
      const done = needed === undefined ? rate : doneOf(one, needed);
      const felt = needed === undefined ? rate : feltOf(one, needed, atOnce);
      return { effect: part(index, done), prospect: () => prospectOf(model, part(index, felt)) };
    },
  };
}

type Needed = NonNullable<ReturnType<typeof neededOf>>;

function neededOn(
  { change, end }: Adjustment,
  physics: Physics | undefined,
  sheet: BikeSheet | undefined,
): Needed | undefined {
  if (change === undefined || end === undefined || sheet === undefined) return undefined;
  return neededOf(change, physics?.springs?.[end], sheet);
}

/** How much of what the measured sag asks for the step is: 1 where it is all of it, or where no sag asks. */
function doneOf(can: Possibility, needed: Needed | undefined): number {
  if (needed === undefined || !can.can || can.step === undefined) return 1;
  return Math.min(1, Math.abs(can.step.by) / needed.far);
}

/**
 * How clearly a rider feels the step, for the right cause. That more of a large error is left does not make it less: as much
 * of an air spring's pressure as may be changed at once is felt as a whole fix.
 */
function feltOf(can: Possibility, needed: Needed | undefined, atOnce: number | undefined): number {
  const done = doneOf(can, needed);
  if (done === 1 || !can.can || can.step?.from === undefined || atOnce === undefined) return done;
  if (dimensionOf(can.step.unit) !== 'pressure') return done;
  return Math.min(1, Math.max(done, Math.abs(can.step.by) / (atOnce * can.step.from)));
}

function inPart(moves: readonly Move[], done: number): readonly Move[] {
  return done === 1 ? moves : moves.map((move) => ({ ...move, share: done * move.share }));
}

/** The rule's moves, with the pack's cross-talk replaced by the bike's own where the physics knows it. */
function movesOn(
  { rules: { settings, numbers } }: Model,
  adjustment: Adjustment,
  physics: Physics | undefined,
  bike: BikeSheet,
  whole: boolean,
): readonly Move[] {
  const main = adjustment.change?.setting;
  // What brings the measured sag right is a whole fix; the rule's share is that of its usual step.
  if (whole)
    return adjustment.moves.map((move) =>
      settings[move.setting]!.id === main ? { ...move, share: 1 } : move,
    );
  // The model of a damper has two circuits with a knob each; one knob on both is a thing of its own.
  const share =
    main === undefined
      ? undefined
      : isLone(bike, adjustment)
        ? numbers.advice['one-knob']
        : physics?.crossTalk[main];
  if (share === undefined || adjustment.kind !== 'click') return adjustment.moves;
  // Only the partner is moved by the damper itself; a share in anything else stays the rule's.
  const partner = settings.find((s) => s.id === main)?.partner;
  return adjustment.moves.map((move) => (settings[move.setting]!.id === partner ? { ...move, share } : move));
}

function isLone(sheet: BikeSheet, { end, change }: Adjustment): boolean {
  const row = change === undefined ? undefined : rowFor(change, sheet.settings);
  return end !== undefined && row?.circuit !== undefined && isAlone(sheet, end, row.circuit);
}

function remember<T>(kept: Map<number, T>, key: number, make: () => T): T {
  let value = kept.get(key);
  if (value === undefined) {
    value = make();
    kept.set(key, value);
  }
  return value;
}

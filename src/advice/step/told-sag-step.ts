/** How far a spring goes where a measured sag was told of it, and there is no sheet to work the correction out of. */
import { USUAL_PRELOAD } from '../../bike/end-readings.ts';
import { BIKE_KINDS, ENDS, type BikeKind, type BikeSheet, type UnitChoice } from '../../bike/sheet.ts';
import { writeSpringAt, type SpringAt } from '../../bike/gauge/spring-at.ts';
import { asRead, settable, siPer, writeQuantity } from '../../bike/units.ts';
import { fraction } from '../../form/text.ts';
import { coilShare, pressureShare, type ToldSag } from '../../physics/index.ts';
import type { CompiledRules } from '../../rulebase/compiled.ts';
import type { Adjustment } from '../../rulebase/compiled-adjustment.ts';
import { reasonIn } from '../../rulebase/reasons.ts';
import type { Possibility } from '../feasibility.ts';
import type { PreparedBike } from '../prepared-bike.ts';

/** A rate that stands on many a coil, lb/in: the nearest to another is shown on it. Common practice, no source. */
const EXAMPLE_COIL = 400;

type Rules = Pick<CompiledRules, 'numbers' | 'reasons' | 'sheetCheck' | 'settings' | 'causes'>;

/** A number that was told in the place of an answer, as a case has it. */
export interface ToldNumber {
  readonly question: string;
  readonly measured?: {
    readonly value: number;
    readonly unit: string;
    readonly band: readonly [number, number];
    readonly length?: { readonly whole: number };
    readonly at?: SpringAt;
  };
}

interface SagAt extends Pick<ToldSag, 'end' | 'whole' | 'measured'> {
  readonly band: readonly [number, number];
  /** what the spring held, or which coil it is, where it was told */
  readonly at?: SpringAt | undefined;
}

/** The sag of each end that was told as a number, with the pressure that goes with it. */
export function sagsTold(
  { questions }: Pick<CompiledRules, 'questions'>,
  answers: readonly ToldNumber[],
): SagAt[] {
  const numbers = answers.flatMap(({ question: id, measured }) => {
    const { gauge, end } = questions.find((q) => q.id === id) ?? {};
    return measured === undefined || gauge === undefined || end === undefined
      ? []
      : [{ reads: gauge.reads, end, measured }];
  });
  return numbers.flatMap(({ reads, end, measured: { value, band, length, at } }) => {
    if (reads !== 'sag') return [];
    const read = numbers.find((one) => one.reads === 'spring' && one.end === end)?.measured;
    const pressure =
      read === undefined ? undefined : { pressure: read.value, unit: read.unit as UnitChoice['pressure'] };
    return [{ end, whole: length?.whole, measured: value, band, at: at ?? pressure }];
  });
}

/**
 * The bike with its springs' steps by what was told: a part of what the spring model asks for, as it makes the first of the
 * travel softer than a spring with friction is, and no more than may be changed at once.
 */
export function bySagTold(
  rules: Rules & Pick<CompiledRules, 'questions'>,
  bench: PreparedBike,
  answers: readonly ToldNumber[],
): PreparedBike {
  if (bench.sheet !== undefined) return bench;
  const sags = sagsTold(rules, answers);
  if (sags.length === 0) return bench;
  const possible = bench.possible.map((one, index): Possibility => {
    const adjustment = bench.rules.adjustments[index]!;
    const sag = sags.find(({ end }) => end === adjustment.end);
    if (sag === undefined || !one.can) return one;
    return airStep(rules, bench, adjustment, one, sag) ?? coilNote(rules, bench, adjustment, one, sag) ?? one;
  });
  return { ...bench, possible };
}

type Can = Extract<Possibility, { readonly can: true }>;

function airStep(
  { numbers: { advice }, reasons }: Rules,
  { fact }: PreparedBike,
  { kind, change }: Adjustment,
  one: Can,
  { band, at, ...told }: SagAt,
): Can | undefined {
  if (kind !== 'pressure' || change?.most === undefined || one.step === undefined) return undefined;
  if (at !== undefined && 'rate' in at) return undefined;
  const wanted = (band[0] + band[1]) / 2;
  const off = pressureShare({ ...told, kind: kindOf(fact), wanted }, at?.pressure) - 1;
  if (isOn(told.measured, band) || Math.sign(off) !== Math.sign(change.by)) return undefined;
  const { 'air-at-once': most, 'air-part': part } = advice;
  const share = Math.min(most, part * Math.abs(off));
  const note = notesOf(
    one.note,
    at === undefined ? reasonIn(reasons, 'gauge-first') : undefined,
    part * Math.abs(off) > most + 1e-9 ? reasonIn(reasons, 'far-off') : undefined,
  );
  if (at === undefined)
    return { ...one, step: { ...one.step, share }, ...(note === undefined ? {} : { note }) };
  const unit = siPer(at.unit);
  const grain = settable(0.1 * unit, at.unit) / unit;
  const [least, limit] = [change.by, change.most].map(
    (amount) => (Math.abs(amount) * siPer(change.unit as UnitChoice['pressure'])) / unit,
  ) as [number, number];
  const now = at.pressure / unit;
  // Never past what may be changed at once: rounded down.
  const far = Math.min(limit, Math.max(Math.min(least, most * now), share * now));
  const by = asRead(Math.sign(change.by) * Math.max(1, Math.floor(far / grain + 1e-6)) * grain, at.unit);
  return {
    ...one,
    step: { setting: change.setting, by, unit: at.unit, from: now, to: asRead(now + by, at.unit) },
    ...(note === undefined ? {} : { note }),
  };
}

/** Which coil, as a share of what stands on the one that is in. */
function coilNote(
  { reasons, sheetCheck, settings, causes }: Rules,
  { fact }: PreparedBike,
  { kind, needs, moves, end }: Adjustment,
  one: Can,
  { band, at, ...told }: SagAt,
): Can | undefined {
  const needed = needs[`${end}.spring`];
  if (kind !== 'rebuild' || needed?.includes('coil') !== true || needed.length > 1) return undefined;
  const move = moves.find(({ setting }) => settings[setting]!.kind === 'spring');
  const beyond = fact(`${end}.preload`) === 'beyond';
  if (move === undefined || (isOn(told.measured, band) && !beyond)) return undefined;
  const wanted = aimOfCoil({ ...told, band }, sheetCheck.near.sag);
  const { rate } = coilShare({ ...told, kind: kindOf(fact), wanted }, beyond ? TURNS_BEYOND : 1);
  // Less sag than is wanted is a spring too firm, and a step toward that is a firmer one.
  const isFirmer = causes[move.toward]!.reads === 'low';
  if (isFirmer !== rate > 1) return undefined;
  if (at !== undefined && 'rate' in at) {
    const to = { rate: writeQuantity(settable(at.rate * rate, at.unit), at.unit), now: writeSpringAt(at) };
    const which = beyond ? 'coil-rate-beyond' : 'coil-rate';
    return { ...one, note: notesOf(one.note, reasonIn(reasons, which, to))! };
  }
  const nearest = Math.round((EXAMPLE_COIL * rate) / 10) * 10;
  const values = { share: fraction(Math.abs(rate - 1)), example: EXAMPLE_COIL, rate: nearest };
  const key = isFirmer ? (beyond ? 'coil-firmer-beyond' : 'coil-firmer') : 'coil-softer';
  return { ...one, note: notesOf(one.note, reasonIn(reasons, key, values))! };
}

/**
 * The nearer edge of the figure itself: coils come in steps. What is on target already is no error.
 * @param near on either side of the figure, in percentage points
 */
export function aimOfCoil({ measured, band }: Pick<SagAt, 'measured' | 'band'>, near: number): number {
  const room = Math.min(near / 100, (band[1] - band[0]) / 2);
  return Math.min(band[1] - room, Math.max(band[0] + room, measured));
}

/** The turns that a told sag asks of a collar that way; undefined where it asks for none. */
export function turnsTold(
  { setting, by, unit, most }: NonNullable<Adjustment['change']>,
  { ends }: BikeSheet,
): number | undefined {
  const end = ENDS.find((one) => setting.startsWith(`${one}.`));
  const turns = end === undefined ? undefined : ends[end].toldTurns;
  return unit === 'turns' && most !== undefined && turns !== undefined && Math.sign(turns) === Math.sign(by)
    ? Math.abs(turns)
    : undefined;
}

/** The least preload that is beyond the usual, in turns of 1 mm. */
const TURNS_BEYOND = 1000 * USUAL_PRELOAD;

function isOn(sag: number, [least, most]: readonly [number, number]): boolean {
  return sag >= least - 1e-9 && sag <= most + 1e-9;
}

function kindOf(fact: PreparedBike['fact']): BikeKind {
  const said = fact('kind');
  return BIKE_KINDS.find((kind) => kind === said) ?? 'trail';
}

function notesOf(...notes: readonly (string | undefined)[]): string | undefined {
  const said = notes.filter((note) => note !== undefined);
  return said.length === 0 ? undefined : said.join('; ');
}

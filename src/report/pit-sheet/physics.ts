/** What the model of this bike says of the first change: a curve, the row of bumps, and the knock-on in lines. */
import type { Change } from '../../bike/change.ts';
import type { End } from '../../bike/sheet.ts';
import type { Bike } from '../../physics/bike/bike.ts';
import { fullStroke } from '../../physics/bike/linkage.ts';
import { forceCurve, travelCurve, type TravelCurve } from '../../physics/plots.ts';
import { changed, mostFelt } from '../../physics/predict.ts';
import { settingName } from '../../physics/settings.ts';
import { springForce } from '../../physics/bike/spring.ts';
import { changeWords } from '../bike/metric-words.ts';
import type { Line } from '../plots/svg-plot.ts';

/** One drawing: its axes, its two lines, and what it says in words. */
export interface Drawing {
  readonly title: string;
  readonly xLabel: string;
  readonly yLabel: string;
  readonly before: Line;
  readonly after: Line;
  readonly says: readonly string[];
  readonly level?: { readonly y: number; readonly label: string };
  readonly marks?: readonly number[];
  readonly upsideDown?: boolean;
}

export interface SheetPhysics {
  readonly curve?: Drawing;
  readonly row?: Drawing;
  readonly knockOn: readonly string[];
  /** what makes every number of the model doubtful */
  readonly warnings: readonly string[];
  /** what had to be assumed about the bike */
  readonly notes: readonly string[];
}

/** Lines of knock-on on a page. */
const MOST_LINES = 5;
/** Shaft speeds that the words name, m/s: weight shifts; hits. */
const NAMED = [0.1, 0.5] as const;
/** Fastest shaft speed drawn, m/s; a shock moves slower than its wheel. */
const FASTEST: Readonly<Record<End, number>> = { front: 2, rear: 1 };
const POINTS = 60;

/** @returns no drawings where the model does not reach the setting, and the reason in `notes` */
export function sheetPhysics(bike: Bike, change: Change): SheetPhysics {
  const name = settingName(change.setting);
  const turned = changed(bike, [change]);
  if (name === undefined || !turned.ok)
    return {
      knockOn: [],
      warnings: bike.warnings,
      notes: turned.ok ? [] : turned.refused.map((r) => `Not drawn: ${r.why}.`),
    };
  return {
    ...drawingsOf(bike, turned.bike, change),
    knockOn: knockOnLines(bike, change),
    warnings: bike.warnings,
    notes: bike.notes,
  };
}

/** The drawings alone; @param after the bike with the change made */
export function drawingsOf(before: Bike, after: Bike, change: Change): Pick<SheetPhysics, 'curve' | 'row'> {
  const { end, path } = settingName(change.setting)!;
  const curve = curveOf(before, after, end, path);
  return { ...(curve === undefined ? {} : { curve }), row: rowOf(before, after, end) };
}

function curveOf(before: Bike, after: Bike, end: End, path: string): Drawing | undefined {
  const [side] = path.split('.');
  if (side === 'rebound' || side === 'compression') return damperCurve(before, after, end, side);
  if (path === 'spring' || path === 'ramp-up') return springCurve(before, after, end);
  return undefined;
}

function damperCurve(before: Bike, after: Bike, end: End, side: 'rebound' | 'compression'): Drawing {
  const sign = side === 'rebound' ? -1 : 1;
  const line = (bike: Bike): Line => {
    const { speeds, forces } = forceCurve(bike, end, FASTEST[end], 2 * POINTS + 1);
    const points = speeds.flatMap((v, i) => (v * sign >= 0 ? [[v * sign, forces[i]! * sign] as const] : []));
    if (sign < 0) points.reverse();
    return { x: points.map(([v]) => v), y: points.map(([, f]) => f) };
  };
  const forceAt = (bike: Bike, speed: number): number =>
    forceCurve(bike, end, speed, 3).forces[sign < 0 ? 0 : 2]! * sign;
  return {
    title: `${end === 'front' ? 'Front' : 'Rear'} ${side} damping`,
    xLabel: 'shaft speed, m/s',
    yLabel: 'force, N',
    before: line(before),
    after: line(after),
    says: NAMED.map((speed, i) => {
      const [from, to] = [forceAt(before, speed), forceAt(after, speed)];
      return `${i === 0 ? 'Slow' : 'Fast'} movements (${speed} m/s): ${Math.round(from)} → ${Math.round(to)} N, ${moved(from, to)}.`;
    }),
  };
}

function springCurve(before: Bike, after: Bike, end: End): Drawing {
  const stroke = fullStroke(before.ends[end].linkage);
  const shares = Array.from({ length: POINTS + 1 }, (_, i) => i / POINTS);
  // At the very top the negative chamber pulls in; the stop holds there, so nothing below zero is ever felt.
  const force = (bike: Bike, share: number): number =>
    Math.max(0, springForce(bike.ends[end].spring, share * stroke));
  const line = (bike: Bike): Line => ({
    x: shares.map((s) => 100 * s),
    y: shares.map((s) => force(bike, s)),
  });
  return {
    title: `${end === 'front' ? 'Front' : 'Rear'} spring`,
    xLabel: 'stroke, %',
    yLabel: 'force, N',
    before: line(before),
    after: line(after),
    says: [0.25, 0.9].map((share) => {
      const [from, to] = [force(before, share), force(after, share)];
      return `At ${100 * share} % of the stroke: ${Math.round(from)} → ${Math.round(to)} N, ${moved(from, to)}.`;
    }),
  };
}

/** The bump whose beginning the words speak of; a row has built up by then. */
const FIFTH = 4;

function rowOf(before: Bike, after: Bike, end: End): Drawing {
  const [was, willBe] = [before, after].map((bike) => travelCurve(bike, end)) as [TravelCurve, TravelCurve];
  const [from, to] = [was, willBe].map((curve) => Math.round(depthAt(curve, curve.hits[FIFTH]!) * 10) / 10);
  const [most, least] = [was, willBe].map((curve) => Math.round(Math.max(...curve.travel)));
  return {
    title: `Row of ${was.hits.length} bumps, ${end} travel`,
    xLabel: 'seconds; each dot is a bump',
    yLabel: 'travel, mm',
    before: { x: was.times, y: was.travel },
    after: { x: willBe.times, y: willBe.travel },
    level: { y: was.sag, label: 'sag' },
    marks: was.hits,
    upsideDown: true,
    says: [
      `At the 5th bump: ${below(from!)} → ${below(to!)}.`,
      `Deepest: ${most} → ${least} of ${Math.round(was.full)} mm.`,
    ],
  };
}

function depthAt(curve: TravelCurve, time: number): number {
  const step = curve.times[1]! - curve.times[0]!;
  return curve.travel[Math.round(time / step)]! - curve.sag;
}

function below(mm: number): string {
  return `${Math.abs(mm)} mm ${mm < 0 ? 'above' : 'below'} sag`;
}

/** `14 % less`, or `the same`. */
function moved(from: number, to: number): string {
  const percent = Math.round((100 * (to - from)) / Math.max(1e-9, Math.abs(from)));
  return percent === 0 ? 'the same' : `${Math.abs(percent)} % ${percent > 0 ? 'more' : 'less'}`;
}

/** What can be felt most, each as a share of what it is, and each named once. */
export function knockOnLines(bike: Bike, change: Change, most = MOST_LINES): string[] {
  return mostFelt(bike, [change], most).map(
    (m) => `${m.scenarioName}: ${m.name} ${changeWords(m)}${m.effect === 'either' ? '' : ` (${m.effect})`}`,
  );
}

/**
 * What an end does, as tables: at rest over wheel travel, and against speed over shaft speed.
 */
import type { EndModel } from '../bike/bike.ts';
import { damperForce, damperSlope } from '../bike/damper.ts';
import { MARGIN, restUnder } from '../bike/equilibrium.ts';
import { fullStroke, ratioAt, ratioSlope, shaftTravel, type Linkage } from '../bike/linkage.ts';
import { springForce, springNumbers, springStiffness, type SpringModel } from '../bike/spring.ts';
import { stopForce, stopStiffness, type Stops } from '../bike/stops.ts';
import { machine, type Machine } from '../machine/machine.ts';
import { makeTable, type Table } from '../table.ts';

const ELASTIC_PIECES = 512;
/** Even, so that a node stands at rest, where the damper's two parabolas meet. */
const DRAG_PIECES = 1024;
/** m/s; about where a damper leaves its orifice */
export const SQUEEZE = 0.5;
/** m/s; faster than any shaft on a bike */
const FASTEST = 30;

/**
 * Shaft speed squeezed into −1..1, v/(|v| + 0.5 m/s): nodes are 1 mm/s apart near rest, where friction turns over, and
 * wide apart where the curve is all but straight.
 */
function squeezed(speed: number): number {
  return speed / (Math.abs(speed) + SQUEEZE);
}

const WIDEST = squeezed(FASTEST);

/** The inverse of `squeezed`. */
function speedOf(squeezedSpeed: number): number {
  return (SQUEEZE * squeezedSpeed) / (1 - Math.abs(squeezedSpeed));
}

/** By its spring: a turned knob, and what a sheet leaves open, change nothing of it. */
const elastics = new WeakMap<
  SpringModel,
  { readonly stops: Stops; readonly linkage: Linkage; readonly load: number; readonly table: Table }
>();

/**
 * Spring and stops: force at the wheel = force at the shaft ÷ ratio.
 * @param load on its spring standing still on level ground, N at the wheel: there the gas has come to rest
 */
export function elasticTable(end: EndModel, load: number): Table {
  const { spring, stops, linkage } = end;
  const known = elastics.get(spring);
  if (known !== undefined && known.stops === stops && known.linkage === linkage && known.load === load)
    return known.table;
  const stroke = fullStroke(linkage);
  const rest = shaftTravel(linkage, restUnder(end, load));
  const by = machine();
  const table = by === undefined ? elasticPlainly(end, stroke, rest) : elasticAtOnce(by, end, stroke, rest);
  elastics.set(spring, { stops, linkage, load, table });
  return table;
}

function elasticPlainly({ spring, stops, linkage }: EndModel, stroke: number, rest: number): Table {
  return makeTable(-MARGIN * linkage.travel, (1 + MARGIN) * linkage.travel, ELASTIC_PIECES, (wheel) => {
    const shaft = shaftTravel(linkage, wheel);
    const ratio = ratioAt(linkage, wheel);
    const force = springForce(spring, shaft, rest) + stopForce(stops, stroke, shaft);
    const stiffness = springStiffness(spring, shaft, rest) + stopStiffness(stops, stroke, shaft);
    return [force / ratio, (stiffness - force * ratioSlope(linkage, wheel)) / (ratio * ratio)];
  });
}

/** The same in machine code. */
function elasticAtOnce(
  { place, at, code }: Machine,
  { spring, stops, linkage }: EndModel,
  stroke: number,
  rest: number,
): Table {
  const first = -MARGIN * linkage.travel;
  const spacing = ((1 + MARGIN) * linkage.travel - first) / ELASTIC_PIECES;
  const length = 2 * (ELASTIC_PIECES + 1);
  const given = [
    Float64Array.of(linkage.c0, linkage.c1, linkage.c2),
    Float64Array.of(stroke, stops.bottomLength, stops.bottomForce, stops.topLength, stops.topForce),
    springNumbers(spring, rest),
  ];
  const pointers = place(given, length) as readonly [number, number, number, number];
  const nodes = pointers[3];
  code.elasticTable(
    nodes,
    ELASTIC_PIECES,
    first,
    spacing,
    ...(pointers.slice(0, 3) as [number, number, number]),
  );
  return { first, perUnit: 1 / spacing, pieces: ELASTIC_PIECES, nodes: at(nodes, length).slice() };
}

/** Force of damper and friction at the shaft, N, at a shaft speed in m/s, + = compressing. */
export function dragForce(end: EndModel, speed: number): number {
  const { coulomb, blend, viscous } = end.friction;
  const circuit = speed > 0 ? end.compression : end.rebound;
  return damperForce(circuit, speed) + viscous * speed + (coulomb * speed) / apart(speed, blend);
}

/** √(a² + b²); the engine's own `hypot` is several times as slow, and these numbers are of one size. */
const apart = (a: number, b: number): number => Math.sqrt(a * a + b * b);

/** Damper and friction at the shaft, N, over `squeezed` shaft speed, and the steepest slope of it over the speed, N·s/m. */
export interface Drag {
  readonly drag: Table;
  readonly steepest: number;
}

/** The table of what is against the speed, and its steepest slope. */
export function dragOf(end: EndModel): Drag {
  const by = machine();
  if (by !== undefined) return dragAtOnce(by, end);
  const drag = dragTable(end);
  return { drag, steepest: steepest(drag) };
}

function dragTable(end: EndModel): Table {
  const { coulomb, blend, viscous } = end.friction;
  return makeTable(-WIDEST, WIDEST, DRAG_PIECES, (s) => {
    const speed = speedOf(s);
    const circuit = speed > 0 ? end.compression : end.rebound;
    const away = apart(speed, blend);
    const dry = coulomb === 0 ? 0 : (coulomb * blend * blend) / (away * away * away);
    const slope = damperSlope(circuit, speed) + viscous + dry;
    const left = 1 - Math.abs(s);
    return [dragForce(end, speed), (slope * SQUEEZE) / (left * left)];
  });
}

/** Slope over the squeezed speed, turned back into one over the speed, where it is largest. */
function steepest({ nodes, pieces, first, perUnit }: Table): number {
  let most = 0;
  for (let i = 0; i <= pieces; i++) {
    const left = 1 - Math.abs(first + i / perUnit);
    const slope = (nodes[2 * i + 1]! * perUnit * left * left) / SQUEEZE;
    if (slope > most) most = slope;
  }
  return most;
}

/** Both in machine code. */
function dragAtOnce({ place, at, code }: Machine, end: EndModel): Drag {
  const { compression, rebound, friction } = end;
  const circuits = [compression, rebound].flatMap(({ orifice, stack, preload }) => [orifice, stack, preload]);
  const numbers = Float64Array.of(...circuits, friction.viscous, friction.coulomb, friction.blend);
  const length = 2 * (DRAG_PIECES + 1);
  const [given, out] = place([numbers], length) as [number, number];
  const spacing = (2 * WIDEST) / DRAG_PIECES;
  code.dragTable(out, DRAG_PIECES, -WIDEST, spacing, given);
  const drag = { first: -WIDEST, perUnit: 1 / spacing, pieces: DRAG_PIECES, nodes: at(out, length).slice() };
  return { drag, steepest: code.steepest(out, DRAG_PIECES, drag.first, drag.perUnit) };
}

/**
 * What an end does, as tables: at rest over wheel travel, and against speed over shaft speed.
 */
import type { EndModel } from '../bike/bike.ts';
import { MARGIN, restUnder } from '../bike/equilibrium.ts';
import { fullStroke, shaftTravel, type Linkage } from '../bike/linkage.ts';
import { springNumbers, type SpringModel } from '../bike/spring.ts';
import { stopNumbers, type Stops } from '../bike/stops.ts';
import { rootForce } from '../machine/loops/circuit.ts';
import { circuitAt, dragAt, SQUEEZE } from '../machine/loops/drag.ts';
import { machine } from '../machine/machine.ts';
import type { Table } from '../table.ts';

const ELASTIC_PIECES = 512;
/** Even, so that a node stands at rest, where the damper's two parabolas meet. */
const DRAG_PIECES = 1024;
/** m/s; faster than any shaft on a bike */
const FASTEST = 30;

/**
 * That shaft speed squeezed into −1..1, v/(|v| + 0.5 m/s): nodes are 1 mm/s apart near rest, where friction turns over, and
 * wide apart where the curve is all but straight.
 */
const WIDEST = FASTEST / (FASTEST + SQUEEZE);

/** By its spring: a turned knob, and what a sheet leaves open, change nothing of it. */
const elastics = new WeakMap<
  SpringModel,
  { readonly stops: Stops; readonly linkage: Linkage; readonly load: number; readonly table: Table }
>();

/**
 * Spring and stops at the wheel; exact slopes make the pieces' error about spacing⁴/384 times the fourth derivative.
 * @param load on its spring standing still on level ground, N at the wheel: there the gas has come to rest
 */
export function elasticTable(end: EndModel, load: number): Table {
  const { spring, stops, linkage } = end;
  const known = elastics.get(spring);
  if (known !== undefined && known.stops === stops && known.linkage === linkage && known.load === load)
    return known.table;
  const rest = shaftTravel(linkage, restUnder(end, load));
  const first = -MARGIN * linkage.travel;
  const spacing = ((1 + MARGIN) * linkage.travel - first) / ELASTIC_PIECES;
  const length = 2 * (ELASTIC_PIECES + 1);
  const { code, place, read } = machine();
  const [ratios, ends, gas, nodes] = place(
    [
      Float64Array.of(linkage.c0, linkage.c1, linkage.c2),
      stopNumbers(stops, fullStroke(linkage)),
      springNumbers(spring, rest),
    ],
    length,
  );
  code.elasticTable(nodes, ELASTIC_PIECES, first, spacing, ratios, ends, gas);
  const table = { first, perUnit: 1 / spacing, pieces: ELASTIC_PIECES, nodes: read(nodes, length).slice() };
  elastics.set(spring, { stops, linkage, load, table });
  return table;
}

/** Damper and friction of an end, as the loops take them. */
function dragNumbers({ compression, rebound, friction }: EndModel): Float64Array {
  const circuits = [compression, rebound].flatMap(({ orifice, stack, preload }) => [orifice, stack, preload]);
  return Float64Array.of(...circuits, friction.viscous, friction.coulomb, friction.blend);
}

/** Force of damper and friction at the shaft, N, at a shaft speed in m/s, + = compressing. */
export function dragForce(end: EndModel, speed: number): number {
  const numbers = dragNumbers(end);
  const [orifice, stack, preload] = numbers.subarray(circuitAt(speed));
  return dragAt(numbers, speed, rootForce(orifice!, stack!, preload!, Math.abs(speed)));
}

/** Damper and friction at the shaft, N, over squeezed shaft speed, and the steepest slope of it over the speed, N·s/m. */
export interface Drag {
  readonly drag: Table;
  readonly steepest: number;
}

/** The table of what is against the speed, and its steepest slope. */
export function dragOf(end: EndModel): Drag {
  const length = 2 * (DRAG_PIECES + 1);
  const { code, place, read } = machine();
  const [circuits, nodes] = place([dragNumbers(end)], length);
  const spacing = (2 * WIDEST) / DRAG_PIECES;
  const perUnit = 1 / spacing;
  code.dragTable(nodes, DRAG_PIECES, -WIDEST, spacing, circuits);
  const drag = { first: -WIDEST, perUnit, pieces: DRAG_PIECES, nodes: read(nodes, length).slice() };
  return { drag, steepest: code.steepest(nodes, DRAG_PIECES, -WIDEST, perUnit) };
}

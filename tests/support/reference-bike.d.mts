import type { Bike, EndModel } from '../../src/physics/bike/bike.ts';
export function referenceRates(
  bike: Bike,
  loads: Readonly<Record<'front' | 'rear', number>>,
  start: readonly number[],
  ground: {
    readonly height: (x: number) => number;
    readonly slope: (x: number) => number;
    readonly speed: number;
    readonly from?: number;
    readonly gravity: (time: number) => number;
    readonly braking: (time: number) => number;
  },
): (time: number, state: readonly number[]) => number[];
export function restOf(end: EndModel, load: number): number;
export function endForce(end: EndModel, travel: number, rate: number, rest: number): number;

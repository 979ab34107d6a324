import type { Bike, EndModel } from '../../src/dynamics/bike.ts';
export function referenceRates(
  bike: Bike,
  ground: {
    readonly height: (x: number) => number;
    readonly slope: (x: number) => number;
    readonly speed: number;
    readonly start?: number;
    readonly gravity: (time: number) => number;
    readonly braking: (time: number) => number;
  },
): (time: number, state: readonly number[]) => number[];
export function endForce(end: EndModel, travel: number, rate: number): number;

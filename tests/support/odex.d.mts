export function solveWithOdex(
  rates: (time: number, state: readonly number[]) => number[],
  start: readonly number[],
  times: readonly number[],
  tolerance?: number,
): number[][];

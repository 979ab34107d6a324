// odex ships TypeScript that strict compilers refuse: loaded as CommonJS from here. It reports trouble by `outcome`, not
// by an exception, so that is asserted.
import { createRequire } from 'node:module';

const { Solver, Outcome } = createRequire(import.meta.url)('odex');

/** Solves y' = rates(t, y) by extrapolation (Hairer & Wanner's ODEX); returns the state at each given time. */
export function solveWithOdex(rates, start, times, tolerance = 1e-9) {
  const solver = new Solver(start.length);
  solver.absoluteTolerance = tolerance;
  solver.relativeTolerance = tolerance;
  solver.maxSteps = 2_000_000;
  const states = [];
  let y = [...start];
  for (let i = 1; i < times.length; i++) {
    const result = solver.solve((t, state) => rates(t, state), times[i - 1], y, times[i]);
    if (result.outcome !== Outcome.Converged)
      throw new Error(`odex stopped early: outcome ${result.outcome}`);
    y = result.y;
    states.push([...y]);
  }
  return states;
}

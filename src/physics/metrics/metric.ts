/** What a metric is. */
import type { End } from '../../bike/sheet.ts';
import type { ScenarioId } from '../ride/scenario.ts';
import type { Run } from '../ride/trace-reading.ts';

export interface Metric {
  /** `overshoot.front`, `pitch-at-exit` */
  readonly id: string;
  readonly end?: End;
  readonly unit: string;
  readonly name: string;
  /** one sentence with the number's meaning and sign */
  readonly about: string;
  /** the way that is worse for a rider; `either` where too much and too little are both bad */
  readonly worse: 'up' | 'down' | 'either';
  /** numbers below nought are neither better nor worse than each other */
  readonly fineBelowNought?: true;
  /** below this a change is too small to say anything about, in the unit */
  readonly floor: number;
  /** a usual size, in the unit: a difference is felt as a share of the number, or of this where the number is smaller */
  readonly usual: number;
  /** what a change upward and one downward is called: `deeper`, `higher` */
  readonly words: { readonly up: string; readonly down: string };
  /** what a number above and one below nought is called where people read it without its sign */
  readonly sides?: Sides;
  readonly scenarios: readonly ScenarioId[];
  readonly read: (run: Run) => number;
}

export interface Sides {
  readonly plus: string;
  readonly minus: string;
}

/** A metric that is written once and made for both ends; {end} stands for the end in its words. */
export interface EndMetric extends Omit<Metric, 'id' | 'end' | 'read'> {
  readonly stem: string;
  readonly read: (run: Run, end: End) => number;
}

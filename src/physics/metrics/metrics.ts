/** What is read off a run, in a mechanic's words. */
import { ENDS } from '../../bike/sheet.ts';
import { BIKE_METRICS } from './bike-metrics.ts';
import { HIT_METRICS } from './hit-metrics.ts';
import type { Metric } from './metric.ts';
import { SWING_METRICS } from './swing-metrics.ts';
import type { Run } from '../ride/trace-reading.ts';

export type { Metric } from './metric.ts';

export const METRICS: readonly Metric[] = [
  ...[...HIT_METRICS, ...SWING_METRICS].flatMap(({ stem, read, ...metric }) =>
    ENDS.map((end) => ({
      ...metric,
      id: `${stem}.${end}`,
      end,
      name: `${end} ${metric.name}`,
      about: metric.about.replaceAll('{end}', end),
      read: (run: Run) => read(run, end),
    })),
  ),
  ...BIKE_METRICS,
];

export const METRIC_IDS: readonly string[] = METRICS.map((m) => m.id);

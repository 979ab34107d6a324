/** Whether "feels better" and "feels worse" hold: what was said of the first change, against what is really off. */
import { chanceFelt } from '../../dist/advice/help-harm.js';
import { outcomeProbability } from '../../dist/diagnosis/results.js';

/**
 * One change a rider, none where nothing is changed first. The chance itself is compared, not a drawn report of it.
 *
 * @param runs of `interviewRider`, all on this bench
 * @param report 'better' or 'worse'
 * @returns of each first change what was said, and how likely the report is on this bike, by the pack's own rows of reports
 */
export function feltOf(model, bench, runs, report) {
  return runs.flatMap(({ truth, outcome: { advice, averaged, none } }) => {
    const { verdict, first } = advice;
    if (verdict !== 'change' || first === undefined || model.rules.adjustments[first].kind === 'measure')
      return [];
    const said = chanceFelt(model, averaged(), none, { prospect: bench.prospect(first), report });
    return [{ said, real: outcomeProbability(model, bench.effect(first), truth, report) }];
  });
}

/** In steps of `width` of what was said. */
export function feltTable(felt, width = 0.1) {
  const bins = Array.from({ length: Math.round(1 / width) }, () => []);
  for (const f of felt) bins[Math.min(bins.length - 1, Math.floor(f.said / width))].push(f);
  return bins.flatMap((list, i) =>
    list.length === 0 ? [] : [{ from: i * width, to: (i + 1) * width, ...summary(list) }],
  );
}

/** Of all together: means, and the standard error of `real` − `said`. */
export function summary(list) {
  const count = list.length;
  const mean = (of) => list.reduce((s, f) => s + of(f), 0) / count;
  const over = mean((f) => f.real - f.said);
  const variance = mean((f) => (f.real - f.said - over) ** 2);
  return { count, said: mean((f) => f.said), real: mean((f) => f.real), error: Math.sqrt(variance / count) };
}

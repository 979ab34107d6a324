/** How far a tyre goes whose pressure was told off its figure, where there is no sheet: to where what is usual for it begins. */
import type { UnitChoice } from '../../bike/sheet.ts';
import { asRead, settable, siPer } from '../../bike/units.ts';
import type { CompiledRules } from '../../rulebase/compiled.ts';
import type { Possibility } from '../feasibility.ts';
import type { PreparedBike } from '../prepared-bike.ts';
import type { ToldNumber } from './told-sag-step.ts';

/** The bike with its tyres' steps by what a gauge read; from there it goes on in steps of the rule. */
export function byTyreTold(
  { questions }: Pick<CompiledRules, 'questions'>,
  bench: PreparedBike,
  answers: readonly ToldNumber[],
): PreparedBike {
  if (bench.sheet !== undefined) return bench;
  const read = answers.flatMap(({ question: id, measured }) => {
    const { gauge, measures } = questions.find((q) => q.id === id) ?? {};
    return measured !== undefined && gauge?.reads === 'tyre' && measures !== undefined
      ? [{ setting: measures, measured }]
      : [];
  });
  if (read.length === 0) return bench;
  const possible = bench.possible.map((one, index): Possibility => {
    const { kind, change } = bench.rules.adjustments[index]!;
    if (kind !== 'tyre' || change === undefined || !one.can || one.step === undefined) return one;
    // Of two figures the nearer one first: the rider's own goes before what is usual for a weight.
    const steps = read.flatMap(({ setting, measured }) =>
      setting === change.setting ? (stepTo(measured, Math.sign(change.by)) ?? []) : [],
    );
    const [step] = steps.toSorted((a, b) => Math.abs(a.far) - Math.abs(b.far));
    const rule = Math.abs(change.by) * siPer(change.unit as UnitChoice['pressure']);
    if (step === undefined || Math.abs(step.far) <= rule) return one;
    return { ...one, step: { setting: change.setting, ...step.step } };
  });
  return { ...bench, possible };
}

/** To the nearer edge of what it was held against, as far as a gauge shows; undefined where it is not off that way. */
function stepTo(
  { value, unit: told, band: [least, most] }: NonNullable<ToldNumber['measured']>,
  way: number,
):
  | {
      readonly far: number;
      readonly step: {
        readonly by: number;
        readonly unit: UnitChoice['pressure'];
        readonly from: number;
        readonly to: number;
      };
    }
  | undefined {
  const far = value > most ? most - value : value < least ? least - value : 0;
  if (far === 0 || Math.sign(far) !== way) return undefined;
  const unit = told as UnitChoice['pressure'];
  const [from, to] = [value, settable(value + far, unit)].map((p) => asRead(p / siPer(unit), unit)) as [
    number,
    number,
  ];
  return { far, step: { by: asRead(to - from, unit), unit, from, to } };
}

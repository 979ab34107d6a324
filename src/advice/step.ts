/** How far an adjustment can go on this bike: from where to where, or why it cannot be done. */
import { sheetFact } from '../bike/facts.ts';
import type { BikeSheet, Circuit } from '../bike/sheet.ts';
import type { Adjustment, Setting } from '../rulebase/compiled.ts';

export interface Step {
  /** signed, in `unit`; + is more open, more pressure, more spacers, higher */
  readonly by: number;
  readonly unit: string;
  /** where it stands and where it goes, in the same unit; absent when nobody wrote it down */
  readonly from?: number;
  readonly to?: number;
}

export type Possibility =
  | { readonly can: true; readonly step?: Step; readonly note?: string }
  | { readonly can: false; readonly why: string };

const POUND_PER_SQUARE_INCH = 6894.757293168; // Pa; 0.45359237 kg · 9.80665 m/s² / (0.0254 m)²
const UNIT_IN_SI = { psi: POUND_PER_SQUARE_INCH, bar: 1e5 } as const;

/**
 * @param clicks how many clicks one step is, when the physics of this bike knows better than the rule
 */
export function possible(
  adjustment: Adjustment,
  setting: Setting | undefined,
  sheet: BikeSheet | undefined,
  clicks?: number,
): Possibility {
  const change = adjustment.change;
  const asked: Step | undefined =
    change === undefined
      ? undefined
      : {
          by: change.unit === 'clicks' && clicks !== undefined ? Math.sign(change.by) * clicks : change.by,
          unit: change.unit,
        };
  if (sheet === undefined) return { can: true, ...(asked === undefined ? {} : { step: asked }) };
  const unmet = missing(adjustment, sheet);
  if (unmet !== undefined) return { can: false, why: unmet };
  if (asked === undefined || setting?.end === undefined)
    return { can: true, ...(asked === undefined ? {} : { step: asked }) };
  const end = sheet.ends[setting.end];
  switch (asked.unit) {
    case 'clicks': {
      const knob = end.adjusters[setting.adjuster as Circuit];
      if (knob === undefined) return { can: false, why: `there is no knob for ${setting.name} on this bike` };
      return within(asked, knob.now, 0, knob.range, 'at its stop');
    }
    case 'psi':
    case 'bar': {
      const si = UNIT_IN_SI[asked.unit];
      if (setting.kind === 'tyre')
        return within(asked, scaled(end.tyre?.now, si), 0, Infinity, 'at its limit');
      if (end.spring.kind !== 'air') return { can: false, why: `the ${setting.end} has a coil spring` };
      const { pressure, pressureMin, pressureMax } = end.spring;
      return within(
        asked,
        scaled(pressure, si),
        scaled(pressureMin, si) ?? 0,
        scaled(pressureMax, si) ?? Infinity,
        "at the maker's limit",
      );
    }
    case 'spacers':
      if (end.spring.kind !== 'air') return { can: false, why: `the ${setting.end} has a coil spring` };
      return within(
        asked,
        end.spring.spacers,
        0,
        end.spring.spacersMax ?? Infinity,
        'at the end of what fits',
      );
    default:
      return { can: true, step: asked };
  }
}

/** What the adjustment needs and the sheet denies, in words. */
function missing(adjustment: Adjustment, sheet: BikeSheet): string | undefined {
  for (const [path, values] of Object.entries(adjustment.needs)) {
    const full =
      adjustment.end === undefined || path.startsWith(adjustment.end) ? path : `${adjustment.end}.${path}`;
    const fact = sheetFact(sheet, full);
    if (fact !== undefined && !values.includes(fact))
      return `it needs ${path} ${values.join(' or ')}, this bike has ${fact}`;
  }
  return undefined;
}

function within(
  asked: Step,
  now: number | undefined,
  least: number,
  most: number,
  where: string,
): Possibility {
  if (now === undefined)
    return { can: true, step: asked, note: 'write down where it stands first: that is the way back' };
  const to = Math.min(most, Math.max(least, now + asked.by));
  if (Math.abs(to - now) < Math.min(1, Math.abs(asked.by)) / 2) return { can: false, why: `it is ${where}` };
  const step = { by: to - now, unit: asked.unit, from: now, to };
  return to === now + asked.by
    ? { can: true, step }
    : { can: true, step, note: `only this much is left; then it is ${where}` };
}

function scaled(value: number | undefined, unit: number): number | undefined {
  return value === undefined ? undefined : value / unit;
}

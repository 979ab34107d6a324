/** Why a knob goes by another number of clicks than it usually does: whoever was told the usual step hears that. */
import type { Change } from '../../bike/change.ts';
import { rowFor } from '../../bike/settings.ts';
import type { BikeSheet } from '../../bike/sheet.ts';
import type { CompiledRules } from '../../rulebase/compiled.ts';
import { reasonIn, type Reasons } from '../../rulebase/reasons.ts';
import { ahead, middleAhead } from './sheet-step.ts';

/**
 * The middle of a sentence; undefined where it is the usual step, or ends at a stop.
 * @param usual the change of the rule
 */
export function ownSize(
  usual: Change | undefined,
  step: Change,
  sheet: BikeSheet,
  {
    reasons,
    'by-the-sheet': by,
  }: Partial<Pick<CompiledRules['numbers']['advice'], 'by-the-sheet'>> & {
    readonly reasons?: Reasons | undefined;
  },
): string | undefined {
  if (usual?.unit !== 'clicks' || step.unit !== 'clicks' || step.by === usual.by) return undefined;
  const { now, of, maker } = rowFor(step, sheet.settings)?.shown(sheet) ?? {};
  const to = now === undefined ? undefined : now + step.by;
  if (to === 0 || (to !== undefined && to === of)) return undefined;
  const clicks = Math.abs(step.by);
  const sizes = { clicks: `${clicks} ${clicks === 1 ? 'click' : 'clicks'}`, usual: Math.abs(usual.by) };
  const off =
    now === undefined ? undefined : ahead(step, now, maker ?? middleAhead(step, { now, of, maker }, by));
  const isFar = by !== undefined && off !== undefined && off > by.beyond;
  return reasonIn(reasons, isFar ? 'size-far' : 'size-felt', sizes);
}

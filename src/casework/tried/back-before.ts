/** What made no difference and is still on the bike goes back before the first step, so that the step is all that changed. */
import type { Advice } from '../../advice/advise.ts';
import { chancesOf } from '../../advice/help-harm.ts';
import type { Situation } from '../../advice/hold-back.ts';
import { isUndoing } from '../../advice/undoing.ts';
import { gaugeBefore, staysOn } from '../../advice/way-back.ts';
import { wayBack } from '../../bike/change.ts';
import { riddenEffect } from '../trial-effect.ts';
import type { Back } from './choose-back.ts';
import type { TriedEffect } from './weigh-tried.ts';

/** Kinds of step that stand alone. */
const ALONE: ReadonlySet<string> = new Set(['measure', 'put-back']);
/** Kinds that cure whatever the knobs stand at: a pressure may have to go back before them, clicks can wait. */
const WHATEVER: ReadonlySet<string> = new Set(['repair', 'habit']);

/**
 * None beside a look, which changes nothing, nor beside a step that puts something back or turns the same thing, nor what is not put back unread. Where nothing is to be changed it may go back all the same: the state before it is the known one.
 */
export function backBefore(s: Situation, left: readonly Back[], { verdict, first }: Advice): TriedEffect[] {
  if (verdict === 'stop' || left.length === 0) return [];
  const step = first === undefined ? undefined : s.model.rules.adjustments[first]!;
  if (step !== undefined && (ALONE.has(step.kind) || isUndoing(step))) return [];
  const waits = step !== undefined && WHATEVER.has(step.kind);
  return left.flatMap((one) => {
    if (waits && one.steps.every(({ unit }) => unit === 'clicks')) return [];
    const own = besideStep(s, one, step?.change?.setting);
    return own === undefined || staysOn(s, own) || gaugeBefore(s, own) !== undefined ? [] : [own.tried];
  });
}

/** Of one name for two knobs the step turns one by itself: the other is what goes back. */
function besideStep(
  { model, bench, belief }: Situation,
  back: Back,
  turned: string | undefined,
): Back | undefined {
  const rest = back.steps.filter(({ setting }) => setting !== turned);
  if (rest.length === back.steps.length) return back;
  const changes = wayBack(rest);
  const effect = rest.length === 0 ? undefined : riddenEffect(model, bench, { changes });
  if (effect === undefined || back.tried.loose !== true) return undefined;
  return {
    ...back,
    ...chancesOf(model, belief, { cures: effect.brings, brings: effect.cures }),
    steps: rest,
    tried: { ...back.tried, changes, effects: [effect] },
  };
}

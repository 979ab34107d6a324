/** How a step goes on where no figure of the sheet ends it: until what is felt or read, and where it stops. */
import type { Change } from '../../bike/change.ts';
import type { Dial } from '../../bike/dial/dial.ts';
import type { Shown } from '../../bike/row.ts';
import { rowFor } from '../../bike/settings.ts';
import type { BikeSheet } from '../../bike/sheet.ts';
import type { Known } from '../../diagnosis/gates.ts';
import type { CompiledRules } from '../../rulebase/compiled.ts';
import type { Adjustment, Repeat } from '../../rulebase/compiled-adjustment.ts';
import { reasonIn } from '../../rulebase/reasons.ts';
import { turnedAgainst, type TriedChange } from './cut-step.ts';
import { mayBeGiven } from '../hold-back.ts';
import { ahead, middleAhead } from './sheet-step.ts';

/** A bike as far as it was told, in a sheet or in a case. */
interface Told {
  readonly rules: Pick<CompiledRules, 'reasons' | 'numbers'>;
  readonly bike: BikeSheet | undefined;
  readonly known: Known | undefined;
  /** of this round */
  readonly tried: readonly TriedChange[];
}

/**
 * The middle of a sentence, such as `better but not right yet: the same again, one ride each, until ...; stop when ...`; undefined
 * where the rule says nothing, or the step ends at a stop or at the maker's figure.
 */
export function repeatWords(
  { repeat }: Pick<Adjustment, 'repeat'>,
  step: Change,
  told: Told,
): string | undefined {
  if (repeat === undefined) return undefined;
  const { reasons } = told.rules;
  const { until, stop } = repeat;
  const stands = standsOf(step, told.bike);
  if (isAtStop(step, stands)) return undefined;
  if (repeat.byGauge) return reasonIn(reasons, 'repeat-by-gauge', { until, stop });
  const before = turnedAgainst(step, told.tried);
  if (before > Math.abs(step.by))
    return toward(told, repeat, reasonIn(reasons, 'before-at', { clicks: before }));
  const { now, maker } = stands.shown;
  const left = now === undefined ? undefined : ahead(step, now, maker);
  if (
    left !== undefined &&
    left <= Math.max(Math.abs(step.by), told.rules.numbers.advice['by-the-sheet']?.beyond ?? 0)
  )
    return undefined;
  const limit = limitOf(step, repeat.far, stands, told);
  return limit === undefined ? reasonIn(reasons, 'repeat', { until, stop }) : toward(told, repeat, limit);
}

function toward({ rules }: Told, { until, stop }: Repeat, limit: string): string {
  return reasonIn(rules.reasons, 'repeat-toward', { until, stop, limit });
}

interface Stands {
  readonly dial: Dial | undefined;
  readonly shown: Partial<Shown>;
}

function standsOf(step: Change, bike: BikeSheet | undefined): Stands {
  const row = bike === undefined ? undefined : rowFor(step, bike.settings);
  const dial = row?.dial(bike!, step);
  return {
    dial: dial === undefined || 'message' in dial ? undefined : dial,
    shown: row?.shown(bike!) ?? {},
  };
}

function isAtStop({ by }: Change, { dial }: Stands): boolean {
  if (dial?.now === undefined) return false;
  const left = ((by < 0 ? dial.min : dial.max) - dial.now - by) * Math.sign(by);
  return left < dial.grain;
}

/** Where it goes and not beyond: the maker's figure, or from near a stop the middle; undefined where it stands near neither. */
function limitOf(
  step: Change,
  far: Repeat['far'],
  { dial, shown }: Stands,
  { rules: { reasons, numbers }, known }: Told,
): string | undefined {
  const { now, maker } = shown;
  if (now === undefined)
    return dial?.at === (step.by < 0 ? 'max' : 'min') || far.some((answers) => mayBeGiven(answers, known))
      ? reasonIn(reasons, 'middle')
      : undefined;
  if (maker !== undefined)
    return ahead(step, now, maker) === undefined
      ? undefined
      : reasonIn(reasons, 'maker-at', { clicks: maker });
  const middle = middleAhead(step, shown, numbers.advice['by-the-sheet']);
  return middle === undefined ? undefined : reasonIn(reasons, 'middle-at', { clicks: middle });
}

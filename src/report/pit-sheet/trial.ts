/** The first change as a trial on paper, whether or not anybody wrote down where the adjuster stands. */
import { applyChange } from '../../bike/apply.ts';
import type { BikeSheet } from '../../bike/sheet.ts';
import type { CompiledRules } from '../../rulebase/compiled.ts';
import { penSheet, type PenSheet } from '../../trials/pen-sheet.ts';
import { planTrial } from '../../trials/plan.ts';
import { placeWords, type Change } from '../../trials/trial.ts';
import { amountWords } from '../../bike/setting-words.ts';
import { asRead } from '../../bike/units.ts';
import { printable } from '../foreign-text.ts';
import { changeOf, type ResultAdjustment } from '../result/result.ts';

export type PaperTrial =
  | {
      readonly can: true;
      readonly pen: PenSheet;
      /** the setting in words */
      readonly name: string;
      /** counted from where the adjuster stands now, which nobody wrote down */
      readonly relative: boolean;
      /** the bike sheet with the change made; absent when there is none to make it on */
      readonly after?: BikeSheet;
      /** how the ratings come into the log of the bike; absent where no file of it is known */
      readonly entered?: Entered;
    }
  | { readonly can: false; readonly why: string };

/** Command lines: the first opens the trial in the log, the other takes the ratings of a run. */
export interface Entered {
  readonly plan: string;
  readonly record: string;
}

/**
 * @param id names the trial
 * @param name a setting in words
 * @param pack what is rated after every run, and how it is ridden
 */
export function paperTrial(
  id: string,
  name: (setting: string) => string,
  first: ResultAdjustment,
  sheet: BikeSheet | undefined,
  { feelings, rideRules }: Pick<CompiledRules, 'feelings' | 'rideRules'>,
  entered?: Entered,
): PaperTrial {
  const asked = changeOf(first);
  if (asked === undefined)
    return {
      can: false,
      why: 'You cannot turn this back and forth between runs. Do it, ride an easy run first, then note how it went.',
    };
  const known = sheet !== undefined && first.from !== null;
  // A switch is set to a name, and from an unknown one no run can name the other.
  if (!known && asked.unit === 'positions')
    return {
      can: false,
      why: 'Where it stands is not recorded. Move it, ride an easy run first, then note how it went.',
    };
  const applied = known ? applyChange(sheet, asked) : undefined;
  if (applied !== undefined && 'message' in applied)
    return { can: false, why: `${applied.message} ${applied.remedy}` };
  const change: Change = applied?.step ?? {
    setting: asked.setting,
    from: 0,
    to: asked.by,
    unit: asked.unit,
    grain: Math.abs(asked.by),
  };
  const planned = planTrial({ id, change, feel: first.feel, feelings, short: true });
  if (!planned.ok)
    return { can: false, why: planned.problems.map((p) => `${p.message} ${p.remedy}`).join(' ') };
  const pen = penSheet(planned.value, rideRules);
  return {
    can: true,
    pen,
    name: name(asked.setting),
    relative: applied === undefined,
    ...(applied === undefined ? {} : { after: applied.sheet }),
    ...(entered === undefined ? {} : { entered }),
  };
}

/** How to ride the trial, a line a rule. */
export function trialLines({ pen, relative, entered }: Extract<PaperTrial, { can: true }>): string[] {
  return [
    `For whoever sets it; with a helper, fold this line over. ${pen.rows.map(({ run, set, turn }) => `Run ${run}: ${setWords(set, relative, pen)}, ${turnWords(turn, pen.unit, false)}`).join('. ')}.`,
    ...(pen.rows[0]?.warmUp === true ? [WARM_UP_LINE] : []),
    ...(relative
      ? [
          'Current setting not recorded: count it first, write the number after “start”, and never go past a stop. Start is the way back.',
        ]
      : [wayBackLine(pen), ...(entered === undefined ? [] : [enterLine(entered)])]),
    ...pen.notes,
    ...pen.rules,
  ];
}

/** The place to go back to, as a number. */
export function wayBackLine(pen: Pick<PenSheet, 'unit' | 'names' | 'reference'>): string {
  const { unit, names, reference } = pen;
  const of =
    names !== undefined
      ? ''
      : unit === 'clicks'
        ? ` ${reference === 1 ? 'click' : 'clicks'} from fully closed`
        : ` ${unit}`;
  return `The way back: ${placeWords(pen, reference)}${of}.`;
}

/** How what was written by pen comes into the log. */
function enterLine({ plan, record }: Entered): string {
  return `To keep the ratings: ${printable(plan, MOST_LINE)}, then ${printable(record, MOST_LINE)}, run by run.`;
}

/** Letters of a command line: more would push the trial off its page. */
const MOST_LINE = 300;

/** What the first row of a long trial is. */
export const WARM_UP_LINE = 'Run 1 is the warm-up. Rate it too; it counts half.';

/** Where the adjuster must stand for a run: `10`, or `start +2` when nobody knows where it stands. */
function setWords(set: number, relative: boolean, pen: Pick<PenSheet, 'unit' | 'names'>): string {
  if (!relative) return placeWords(pen, set);
  return set === 0 ? 'start' : `start ${set > 0 ? '+' : '−'}${asRead(Math.abs(set), pen.unit)}`;
}

/** How to get there from the run before: `2 clicks out`, `5 psi less`, `turn it and turn it back`, or `leave it`. */
export function turnWords(turn: number, unit: string, sham: boolean): string {
  if (sham) return 'turn it and turn it back';
  if (turn === 0) return 'leave it';
  if (unit === 'positions') return 'move it';
  return amountWords(turn > 0, String(asRead(Math.abs(turn), unit)), unit);
}

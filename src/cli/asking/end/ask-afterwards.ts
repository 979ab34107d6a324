/** After the verdict: set it and start the trial, end, go on, take a slip back, read the rest, or keep the bike. */
import type { Action, Choice, Prompter } from '../../../console/prompter.ts';
import type { Event } from '../../../interview/events.ts';

export type Afterwards =
  | Event
  | { readonly type: Leaving }
  | { readonly type: 'more' }
  | { readonly type: 'measured' }
  | { readonly type: 'ridden' };

/** What is wanted when the interview is left at its end: a trial of the change or of less of it, a sheet of the bike it told of, or both. */
export type Leaving = 'end' | 'trial' | 'less' | 'sheet' | 'sheet-trial';

/** What can be done when the asking is over. */
export interface Possible {
  /** the first change is one that can be tried on a bike that is known */
  readonly trial: boolean;
  /** what comes first was ridden in vain, and a smaller step of it was not: that one, in words */
  readonly less?: string | undefined;
  /** what comes first is a measurement that can be answered here: now, or once he who could not tell has measured it */
  readonly measured: 'now' | 'later' | undefined;
  /** the first change is one that may have been ridden by now */
  readonly ridden: boolean;
  /** how many more questions there are at most, 0 for none, and whether they may well change anything */
  readonly more: number;
  readonly mayMove: boolean;
  readonly back: boolean;
  /** what the bike has was told, and it has no sheet yet */
  readonly sheet: boolean;
  /** the first change turns a knob of that bike */
  readonly sheetTrial: boolean;
}

/** The letter behind which all of it stands. */
export const MORE: Action = { key: 'm', value: 'more', name: 'more' };

export function waysOn(possible: Possible): Choice[] {
  const measured = { value: 'measured', name: 'I measured it: answer it now' };
  return [
    ...(possible.trial ? [{ value: 'trial', name: 'plan the trial of it' }] : []),
    ...(possible.sheetTrial
      ? [{ value: 'sheet-trial', name: 'save this bike as a sheet, then plan the trial' }]
      : []),
    ...(possible.measured === 'now' ? [measured] : []),
    { value: 'end', name: 'done for now' },
    ...(possible.ridden ? [{ value: 'ridden', name: 'I rode it: say how it went' }] : []),
    ...(possible.measured === 'later' ? [measured] : []),
    // Below the way out: nothing is advised there, so Return alone plans nothing.
    ...(possible.less === undefined ? [] : [{ value: 'less', name: `plan a trial of ${possible.less}` }]),
    ...(possible.more > 0
      ? [
          {
            value: 'keep-asking',
            name: possible.mayMove
              ? `a few more questions (${possible.more} at most)`
              : `ask on all the same: hardly likely to change it (${possible.more} at most)`,
          },
        ]
      : []),
  ];
}

export async function askAfterwards(prompter: Prompter, possible: Possible): Promise<Afterwards> {
  const { value } = await prompter.ask({
    head: '',
    message: 'What now?',
    choices: waysOn(possible),
    actions: [
      MORE,
      ...(possible.sheet && !possible.sheetTrial
        ? [{ key: 'k', value: 'sheet', name: 'save this bike as a sheet' }]
        : []),
      ...(possible.back ? [{ key: 'b', value: 'back', name: 'back to the last question' }] : []),
    ],
  });
  return { type: value } as Afterwards;
}

export function leaves(event: Afterwards): event is { readonly type: Leaving } {
  return ['end', 'trial', 'less', 'sheet', 'sheet-trial'].includes(event.type);
}

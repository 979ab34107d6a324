/** A bike sheet asked at the prompt: first what the first change hangs on, and more only where it is wanted. */
import { SIDES } from '../../bike/circuits.ts';
import { valueAt, withValueAt, type Draft } from '../../bike/form/draft.ts';
import { uncountedKnobs, type SheetAsks, type Wanted } from '../../bike/form/new-steps.ts';
import { mostOpen, nextStep } from '../../bike/form/open-steps.ts';
import { problemsAt, readSheet } from '../../bike/form/read.ts';
import { rigidEnd } from '../../bike/form/sheet-of.ts';
import { behindPath, type PathProblem } from '../../form/problem.ts';
import type { OwnSetting } from '../../bike/own-setting.ts';
import { ENDS } from '../../bike/sheet.ts';
import { Left, type Prompter } from '../../console/prompter.ts';
import { paragraph } from '../../report/wrap.ts';
import { askUsual } from './has-prompt.ts';
import { askStep, BACK, type Said } from './sheet-step.ts';

/** What is wanted of the sheet. */
export interface NewBike {
  readonly own: readonly OwnSetting[];
  readonly asks: SheetAsks;
  /** the name it takes where none is given */
  readonly id: string;
  readonly all: boolean;
  /** the only knobs to be counted now, as settings; nothing else is asked then but what a sheet cannot be without */
  readonly count?: readonly string[] | undefined;
}

/** How far the asking has come. */
interface Asking {
  readonly draft: Draft;
  /** steps that were left open */
  readonly passed: ReadonlySet<string>;
  /** the usual knobs were asked about in one */
  readonly knobs: boolean;
  /** whether to go on after what the first change needs; undefined: not asked yet */
  readonly more: boolean | undefined;
  /** answers given since the count began */
  readonly done: number;
}

/** @returns undefined when the user left */
export async function askBike(
  begun: Draft,
  { own, asks, id, all, count }: NewBike,
  prompter: Prompter,
): Promise<Draft | undefined> {
  const say = (text: string, lead = ''): void =>
    prompter.say(`${paragraph(text, prompter.style.width - 1, lead)}\n`);
  const named = all ? begun : { ...begun, id: valueAt(begun, 'id') ?? id };
  let now: Asking = {
    draft: named,
    passed: new Set(),
    knobs: hasKnobs(named),
    more: all ? true : count === undefined ? undefined : false,
    done: 0,
  };
  /** what was known before each question, and which place it was about */
  const before: { readonly was: Asking; readonly path?: string }[] = [];
  const go = (to: Asking, path?: string): void => {
    before.push({ was: now, ...(path === undefined ? {} : { path }) });
    now = to;
  };
  const back = (): boolean => {
    const earlier = before.pop();
    now = earlier?.was ?? now;
    return earlier !== undefined;
  };
  try {
    say("Don't know a number? Press Return: better blank than guessed. Type ? for help, back to go back.");
    for (;;) {
      const { draft, passed, more, done } = now;
      const wanted: Wanted = {
        own,
        asks,
        all,
        passed,
        ...(more === true ? {} : { first: true }),
        ...(count === undefined ? {} : { count }),
      };
      const step = nextStep(draft, wanted);
      // The kind of bike says which ends there are.
      if (!now.knobs && valueAt(draft, 'kind') !== undefined) {
        go({ ...(await withKnobs(now, prompter)), knobs: true, done: 0 });
        continue;
      }
      if (step === undefined) {
        if (more !== undefined) return draft;
        const rest = mostOpen(draft, { own, passed });
        if (rest === 0) return draft;
        const answer = await askMore(rest, prompter);
        if (answer === BACK) back();
        else go({ ...now, more: answer, done: 0 });
        continue;
      }
      const place = now.knobs ? `${done + 1} of ${done + mostOpen(draft, wanted)}` : '';
      const said = await askStep(step, place, draft, id, prompter);
      if (said === BACK) {
        if (!back()) say('This is the first question.', '  ');
        continue;
      }
      if (said === undefined && step.needed) {
        say('This one is needed.', '  ');
        continue;
      }
      const next = (said ?? []).reduce((to, { path, value }) => withValueAt(to, path, value), draft);
      const wrong = said === undefined ? [] : problemsOf(draft, next, said, own);
      for (const problem of wrong) say(`${behindPath(problem)} ${problem.remedy}`, '  ');
      const faults = wrong.filter(({ severity }) => severity === 'error').map(({ path }) => path.join('.'));
      if (faults.length > 0) {
        // Two that do not go together: whichever was typed wrongly, it is asked from the first of them on.
        const first = before.findIndex(({ path }) => path !== undefined && faults.includes(path));
        if (first >= 0) ({ was: now } = before.splice(first)[0]!);
        continue;
      }
      go(
        {
          ...now,
          draft: next,
          passed: said === undefined ? new Set([...passed, step.path]) : passed,
          done: done + 1,
        },
        step.path,
      );
    }
  } catch (error) {
    if (error instanceof Left) return undefined;
    throw error;
  }
}

/** What stands against what was just said, and against what was said before it and no longer goes with it. */
function problemsOf(
  before: Draft,
  now: Draft,
  said: readonly Said[],
  own: readonly OwnSetting[],
): readonly PathProblem[] {
  const here = said.flatMap(({ path }) => problemsAt(now, path, own));
  const known = new Set([...here, ...readSheet(before, own).problems].map(({ message }) => message));
  const elsewhere = readSheet(now, own).problems.filter(({ severity, path, message }) => {
    const value = valueAt(before, path.join('.'));
    return severity === 'error' && !known.has(message) && value !== undefined && typeof value !== 'object';
  });
  return [...here, ...elsewhere];
}

/** Whether anything is said of the knobs already. */
function hasKnobs(draft: Draft): boolean {
  return ENDS.some((end) => SIDES.some(({ side }) => valueAt(draft, `${end}.${side}`) !== undefined));
}

/** The usual knobs in one key; whoever has others is asked side by side. */
async function withKnobs(now: Asking, prompter: Prompter): Promise<Asking> {
  const kind = String(valueAt(now.draft, 'kind'));
  const ends = ENDS.filter((end) => rigidEnd(kind, end) === undefined);
  const usual = await askUsual(prompter, ends, 'something else: one by one');
  if (typeof usual !== 'object') return now;
  const draft = ends.reduce(
    (at, end) =>
      SIDES.reduce(
        (to, { side }) => withValueAt(to, `${end}.${side}`, uncountedKnobs(usual[end]![side])),
        at,
      ),
    now.draft,
  );
  return { ...now, draft };
}

async function askMore(rest: number, prompter: Prompter): Promise<boolean | typeof BACK> {
  const { value } = await prompter.ask({
    head: 'That is enough to begin with.',
    message: 'Write down more now?',
    choices: [
      { value: 'no', name: 'no: the rest when it is needed' },
      { value: 'yes', name: `yes: pressures, sag, travel and tyres (${rest} more)` },
    ],
    actions: [{ key: 'b', value: 'back', name: 'back' }],
  });
  return value === 'back' ? BACK : value === 'yes';
}

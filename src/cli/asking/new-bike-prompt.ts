/** A bike sheet asked at the prompt: first what the first change hangs on, and more only where it is wanted. */
import { SIDES } from '../../bike/circuits.ts';
import { valueAt, withValueAt, type Draft } from '../../bike/form/draft.ts';
import { uncountedKnobs, type NewStep, type SheetAsks, type Wanted } from '../../bike/form/new-steps.ts';
import { mostOpen, nextStep } from '../../bike/form/open-steps.ts';
import { problemsAt } from '../../bike/form/read.ts';
import { rigidEnd } from '../../bike/form/sheet-of.ts';
import type { OwnSetting } from '../../bike/own-setting.ts';
import { ENDS } from '../../bike/sheet.ts';
import { Left, type Prompter } from '../../console/prompter.ts';
import { paragraph } from '../../report/wrap.ts';
import { typedValue } from '../commands/bike/typed-value.ts';
import { askUsual } from './has-prompt.ts';

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

/** Typed, or the letter b where there is a list, instead of an answer. */
const BACK = Symbol('back');

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
  const before: Asking[] = [];
  const go = (to: Asking): void => {
    before.push(now);
    now = to;
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
        if (answer === BACK) now = before.pop() ?? now;
        else go({ ...now, more: answer, done: 0 });
        continue;
      }
      const place = now.knobs ? `${done + 1} of ${done + mostOpen(draft, wanted)}` : '';
      const value = await askOne(step, place, draft, id, prompter);
      if (value === BACK) {
        const earlier = before.pop();
        if (earlier === undefined) say('This is the first question.', '  ');
        else now = earlier;
        continue;
      }
      if (value === undefined && step.needed) {
        say('This one is needed.', '  ');
        continue;
      }
      const next = value === undefined ? draft : withValueAt(draft, step.path, value);
      const wrong = value === undefined ? [] : problemsAt(next, step.path, own);
      for (const { message, remedy } of wrong) say(`${message} ${remedy}`, '  ');
      if (wrong.some(({ severity }) => severity === 'error')) continue;
      go({
        ...now,
        draft: next,
        passed: value === undefined ? new Set([...passed, step.path]) : passed,
        done: done + 1,
      });
    }
  } catch (error) {
    if (error instanceof Left) return undefined;
    throw error;
  }
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
  if (usual === undefined || usual === 'else') return now;
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

/** What there is to say about a question that explains itself. */
const NO_MORE = "There is no more help on this one. Don't guess: Return leaves it open.";
/** The same where Return leaves nothing open. */
const NEEDED = 'There is no more help on this one. It needs an answer: choose the nearest one.';

async function askOne(
  { path, ask, help, choices, needed }: NewStep,
  place: string,
  draft: Draft,
  id: string,
  prompter: Prompter,
): Promise<unknown> {
  const explain = (): void =>
    prompter.say(`${paragraph(help ?? (needed ? NEEDED : NO_MORE), prompter.style.width - 1, '  ')}\n`);
  if (choices !== undefined) {
    // Return leaves a question open, and answers none that has to be answered.
    const open = choices.findIndex((choice) => choice.value === undefined);
    for (;;) {
      const { value } = await prompter.ask({
        head: place,
        message: ask,
        ...(needed || open < 0 ? { deliberate: true } : { start: open }),
        choices: choices.map(({ name }) => ({ value: name, name })),
        actions: [
          { key: 'b', value: 'back', name: 'back' },
          { key: '?', value: 'explain', name: 'explain' },
        ],
      });
      if (value === 'back') return BACK;
      if (value !== 'explain') return choices.find(({ name }) => name === value)?.value;
      explain();
    }
  }
  const unit = unitFor(path, draft);
  const hints = path === 'id' ? `Return: ${id}` : help;
  const shown = `${place === '' ? '' : `${place}  `}${ask}${unit === '' ? '' : `, ${unit}`}${hints === undefined ? '' : ` (${hints})`}:`;
  for (;;) {
    const answer = (await prompter.text(shown)).trim();
    if (answer === '?') {
      explain();
      continue;
    }
    if (answer === 'back') return BACK;
    if (path === 'id') return answer || id;
    if (answer === '') return undefined;
    if (path === 'name') return answer;
    // "7 from closed" is 7.
    const [, clicks] = /\.(?:now|clicks|maker)$/.test(path)
      ? (/^(\d+)\s*(?:clicks?|out|from)\b/i.exec(answer) ?? [])
      : [];
    if (clicks !== undefined) return Number(clicks);
    // A plain number of sag is a percentage, as it is said; the file says so by its sign.
    return unit === '%' && /^\d+(?:[.,]\d+)?$/.test(answer) ? `${answer}%` : typedValue(answer);
  }
}

/** The unit that a plain number will be read in. */
function unitFor(path: string, draft: Draft): string {
  const unit = (of: string, usual: string): string => String(valueAt(draft, `units.${of}`) ?? usual);
  if (/spring\.(?:pressure|min|max|maker)$|tyre\./.test(path)) return unit('pressure', 'psi');
  if (path.endsWith('-mass')) return unit('mass', 'kg');
  if (path.endsWith('spring.rate')) return unit('rate', 'N/mm');
  if (/wheelbase|travel|stroke|preload|spacers-under-stem/.test(path)) return unit('length', 'mm');
  return path.includes('.sag.') ? '%' : '';
}

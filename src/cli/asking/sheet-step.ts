/** One step of a new bike sheet, asked at the prompt: a choice, or a text that is read as it is said. */
import { valueAt, type Draft } from '../../bike/form/draft.ts';
import type { NewStep } from '../../bike/form/new-steps.ts';
import type { Prompter } from '../../console/prompter.ts';
import { SAID } from '../../console/question-lines.ts';
import { paragraph } from '../../report/wrap.ts';
import { typedValue } from '../commands/bike/typed-value.ts';

/** A value of the file form. */
export interface Said {
  readonly path: string;
  readonly value: unknown;
}

/** Typed, or the letter b where there is a list, instead of an answer. */
export const BACK = Symbol('back');

/** What there is to say about a question that explains itself. */
const NO_MORE = "There is no more help on this one. Don't guess: Return leaves it open.";
/** The same where Return leaves nothing open. */
const NEEDED = 'There is no more help on this one. It needs an answer: choose the nearest one.';

/** @returns what was said, where in the file form; `BACK`; undefined where it is left open */
export async function askStep(
  { path, ask, help, choices, needed, numbers }: NewStep,
  place: string,
  draft: Draft,
  id: string,
  prompter: Prompter,
): Promise<readonly Said[] | typeof BACK | undefined> {
  const explain = (): void =>
    prompter.say(`${paragraph(help ?? (needed ? NEEDED : NO_MORE), prompter.style.width - 1, '  ')}\n`);
  if (choices !== undefined) {
    // Return leaves a question open, and answers none that has to be answered.
    const open = choices.findIndex((choice) => choice.value === undefined);
    for (;;) {
      const { value, text } = await prompter.ask({
        head: place,
        message: ask,
        ...(numbers === undefined ? {} : { numbers }),
        ...(needed || open < 0 ? { deliberate: true } : { start: open }),
        choices: choices.map(({ name }) => ({ value: name, name })),
        actions: [
          { key: 'b', value: 'back', name: 'back' },
          { key: '?', value: 'explain', name: 'explain' },
        ],
      });
      if (value === 'back') return BACK;
      if (value === SAID) return [{ path, value: text }];
      if (value !== 'explain') {
        const chosen = choices.find(({ name }) => name === value)?.value;
        return chosen === undefined ? undefined : [{ path, value: chosen }];
      }
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
    if (path === 'id') return [{ path, value: answer || id }];
    if (answer === '') return undefined;
    return typedAt(path, answer, unit);
  }
}

/** A number of clicks as it is said: `7 from closed` is 7, and `7 of 18` is both. */
const CLICKS = /^(\d+)\s*(?:clicks?|out|from|(?:out )?of\s+(\d+)|\/\s*(\d+))(?!\d)/i;

function typedAt(path: string, answer: string, unit: string): Said[] {
  if (path === 'name') return [{ path, value: answer }];
  const counted = /^(.*)\.(?:now|clicks|maker)$/.exec(path)?.[1];
  const [, clicks, of, over] = counted === undefined ? [] : (CLICKS.exec(answer) ?? []);
  if (clicks !== undefined) {
    const range = of ?? over;
    const both = range !== undefined && path.endsWith('.now');
    return [
      { path, value: Number(clicks) },
      ...(both ? [{ path: `${counted}.clicks`, value: Number(range) }] : []),
    ];
  }
  // A plain number of sag is a percentage, as it is said; the file says so by its sign.
  const value = unit === '%' && /^\d+(?:[.,]\d+)?$/.test(answer) ? `${answer}%` : typedValue(answer);
  return [{ path, value }];
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

/** One question at the prompt: digits answer at once, arrows and return too, letters for everything else. */
import {
  createPrompt,
  isDownKey,
  isEnterKey,
  isNumberKey,
  isUpKey,
  useKeypress,
  useState,
  type KeypressEvent,
} from '@inquirer/core';
import type { Style } from '../report/style.ts';
import { paragraph } from '../report/wrap.ts';

export interface Choice {
  readonly value: string;
  readonly name: string;
}

export interface Action {
  /** one letter or sign */
  readonly key: string;
  readonly value: string;
  readonly name: string;
}

export interface QuestionConfig {
  /** the running line above the question */
  readonly head: string;
  readonly message: string;
  /** shown under the question, for a rider alone */
  readonly help?: string;
  readonly choices: readonly Choice[];
  readonly actions: readonly Action[];
  readonly style: Style;
}

export const questionPrompt = createPrompt<string, QuestionConfig>((config, done) => {
  const { choices, actions, style } = config;
  const [active, setActive] = useState(0);
  const [picked, setPicked] = useState<string | undefined>(undefined);
  const finish = (value: string, name: string): void => {
    setPicked(name);
    done(value);
  };
  useKeypress((key: KeypressEvent, rl) => {
    // What was typed is a command, never a text to keep.
    rl.clearLine(0);
    const chosen = choices[active];
    if (isEnterKey(key)) {
      if (chosen !== undefined) finish(chosen.value, chosen.name);
    } else if (isUpKey(key, [])) setActive((active + choices.length - 1) % choices.length);
    else if (isDownKey(key, [])) setActive((active + 1) % choices.length);
    else if (isNumberKey(key)) {
      const choice = choices[Number(key.name) - 1];
      if (choice !== undefined) finish(choice.value, choice.name);
    } else {
      // Signs such as ? carry no name, only what was sent.
      const sent = (key as KeypressEvent & { sequence?: string }).sequence;
      const action = key.ctrl ? undefined : actions.find((a) => a.key === key.name || a.key === sent);
      if (action !== undefined) finish(action.value, action.name);
    }
  });
  if (picked !== undefined) return `${paragraph(config.message, style.width)}\n  ${style.strong(picked)}`;
  const lines = [style.quiet(config.head), style.strong(paragraph(config.message, style.width))];
  if (config.help !== undefined) lines.push(style.quiet(paragraph(config.help, style.width, '  ')));
  choices.forEach((choice, i) => {
    const line = paragraph(`${i + 1} ${choice.name}`, style.width, i === active ? '> ' : '  ', '    ');
    lines.push(i === active ? style.strong(line) : line);
  });
  const keys = actions.map((a) => `${a.key} ${a.name}`).join('   ');
  return [lines.join('\n'), style.quiet(paragraph(keys, style.width))];
});

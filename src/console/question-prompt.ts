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
import type { Sure } from '../casework/case.ts';
import { digit } from './digit.ts';
import { useLife, type Life } from './life.ts';
import {
  answered,
  HELP,
  layOut,
  SAID,
  NOWHERE,
  SURE_WORDS,
  SURENESS,
  type Asked,
  type Screen,
} from './question-lines.ts';

export interface Chosen {
  /** of the choice or the letter */
  readonly value: string;
  readonly sure: Sure;
  /** the user's own words, where the prompt listens and the value is SAID */
  readonly text?: string;
}

export interface QuestionConfig extends Asked, Life {
  readonly screen: () => Screen;
}

export const questionPrompt = createPrompt<Chosen, QuestionConfig>((config, done) => {
  const { choices, stays = config.message } = config;
  const screen = config.screen();
  const [active, setActive] = useState(config.deliberate === true ? NOWHERE : (config.start ?? 0));
  const [typed, setTyped] = useState('');
  const [said, setSaid] = useState('');
  const [lost, setLost] = useState(false);
  const [sure, setSure] = useState<Sure>(config.sure ?? 'sure');
  const [ending, setEnding] = useState<string | undefined>(undefined);
  const settle = useLife(config);
  const layout = layOut(config, screen, { active, typed, sure, said, lost });
  const actions = layout.folded ? [HELP, ...config.actions] : config.actions;
  const finish = (value: string, shown: string, text?: string): void => {
    settle();
    setEnding(shown);
    done({ value, sure, ...(text === undefined ? {} : { text }) });
  };
  const answer = (value: string, name: string): void =>
    finish(value, answered(stays, `${name}${sure === 'sure' ? '' : ` (${SURE_WORDS[sure]})`}`, screen));
  // Not knowing, and putting off, is not surer or less sure.
  const leaveOpen = (value: string, name: string): void => finish(value, answered(stays, name, screen));
  const move = (to: number): void => {
    setTyped('');
    setActive((Math.max(to, -1) + choices.length) % choices.length);
  };
  useKeypress((key: KeypressEvent, rl) => {
    // Signs such as ? carry no name, only what was sent.
    const { sequence } = key as KeypressEvent & { sequence?: string };
    if (config.listens === true && (said !== '' || isWord(key, sequence))) {
      if (!isEnterKey(key)) setSaid(rl.line);
      else if (said.trim() !== '') {
        const text = said.trim();
        finish(SAID, answered(stays, `"${text}"`, screen), text);
      }
      return;
    }
    // What was typed is a command, never a text to keep.
    rl.clearLine(0);
    if (isEnterKey(key)) {
      const choice = choices[active];
      if (choice !== undefined) answer(choice.value, choice.name);
    } else if (isUpKey(key)) move(active - 1);
    else if (isDownKey(key)) move(active + 1);
    else if (isNumberKey(key)) {
      const { chosen, typed: begun } = digit(typed, key.name, choices.length);
      setTyped(begun);
      if (chosen !== undefined) answer(choices[chosen]!.value, choices[chosen]!.name);
      else if (begun !== '') setActive(Number(begun) - 1);
      else setLost(true);
    } else if (key.name === 'backspace') setTyped('');
    else if (!key.ctrl) {
      const is = (letter: string): boolean => letter === key.name || letter === sequence;
      const action = actions.find((a) => is(a.key));
      if (action !== undefined) {
        if (action.answers === true) leaveOpen(action.value, action.stays ?? action.name);
        else finish(action.value, screen.style.quiet(`  ${action.name}`));
      } else if (config.sure !== undefined && is('s'))
        setSure(SURENESS[(SURENESS.indexOf(sure) + 1) % SURENESS.length]!);
      else if (isWord(key, sequence)) setLost(true);
    }
  });
  return ending ?? [...layout.lines, layout.input].join('\n');
});

/** Whether a key begins a text: anything that is printed but a digit. */
function isWord(key: KeypressEvent, sequence: string | undefined): boolean {
  return !key.ctrl && !isNumberKey(key) && /^[^\p{Cc}]+$/u.test(sequence ?? '');
}

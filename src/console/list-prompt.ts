/** A list at the prompt: a digit turns its line on, Return is done. */
import {
  createPrompt,
  isDownKey,
  isEnterKey,
  isNumberKey,
  isSpaceKey,
  isUpKey,
  useKeypress,
  useState,
  type KeypressEvent,
} from '@inquirer/core';
import { digit } from './digit.ts';
import { begin, chosen, layOutList, toldOf, turned, type Listed, type States } from './list-lines.ts';
import { useLife, type Life } from './life.ts';
import { answered, BACK, type Screen } from './question-lines.ts';

export interface ListConfig extends Listed, Life {
  readonly screen: () => Screen;
}

/** What every line says, or the letter that was pressed. */
export type ListAnswer = readonly string[] | string;

export const listPrompt = createPrompt<ListAnswer, ListConfig>((config, done) => {
  const screen = config.screen();
  const [states, setStates] = useState<States>(begin(config));
  const [active, setActive] = useState(0);
  const [typed, setTyped] = useState('');
  const [ending, setEnding] = useState<string | undefined>(undefined);
  const settle = useLife(config);
  const finish = (value: ListAnswer, shown: string): void => {
    settle(value === BACK);
    setEnding(shown);
    done(value);
  };
  const turn = (line: number, by = 1): void => {
    setTyped('');
    setActive(line);
    setStates(turned(config, states, line, by));
  };
  const count = config.lines.length;
  const move = (to: number): void => {
    setTyped('');
    setActive((to + count) % count);
  };
  useKeypress((key: KeypressEvent, rl) => {
    rl.clearLine(0);
    if (isEnterKey(key))
      finish(chosen(config, states), answered(config.message, toldOf(config, states), screen));
    else if (isUpKey(key)) move(active - 1);
    else if (isDownKey(key)) move(active + 1);
    else if (isSpaceKey(key) || key.name === 'right') turn(active);
    else if (key.name === 'left') turn(active, -1);
    else if (isNumberKey(key)) {
      const { chosen: line, typed: begun } = digit(typed, key.name, count);
      if (line !== undefined) turn(line);
      else {
        setTyped(begun);
        if (begun !== '') setActive(Number(begun) - 1);
      }
    } else if (!key.ctrl) {
      const { sequence } = key as KeypressEvent & { sequence?: string };
      const action = config.actions.find((a) => a.key === key.name || a.key === sequence);
      if (action !== undefined) finish(action.value, screen.style.quiet(`  ${action.name}`));
    }
  });
  return ending ?? layOutList(config, screen, states, active);
});

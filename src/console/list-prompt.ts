/** A list at the prompt: a digit turns its line on, Return is done. */
import {
  createPrompt,
  isDownKey,
  isEnterKey,
  isNumberKey,
  isSpaceKey,
  isUpKey,
  useEffect,
  useKeypress,
  useRef,
  useState,
  type KeypressEvent,
} from '@inquirer/core';
import { begin, chosen, endedList, layOutList, turned, type Listed, type States } from './list-lines.ts';
import { onClosed } from './on-closed.ts';
import type { Screen } from './question-lines.ts';

export interface ListConfig extends Listed {
  readonly screen: () => Screen;
  readonly onClose: () => void;
  readonly onShown?: () => void;
  readonly onSettled?: () => void;
  readonly onRedraw?: (redraw: () => void) => () => void;
}

/** What every line says, or the letter that was pressed. */
export type ListAnswer = readonly string[] | string;

export const listPrompt = createPrompt<ListAnswer, ListConfig>((config, done) => {
  const screen = config.screen();
  const [states, setStates] = useState<States>(begin(config));
  const [active, setActive] = useState(0);
  const [ending, setEnding] = useState<string | undefined>(undefined);
  const settled = useRef(false);
  const drawn = useRef(0);
  const [, setDrawn] = useState(0);
  useEffect((rl) => onClosed(rl, () => settled.current || config.onClose()), []);
  useEffect(() => config.onShown?.(), []);
  useEffect(() => config.onRedraw?.(() => settled.current || setDrawn((drawn.current += 1))), []);
  const finish = (value: ListAnswer, shown: string): void => {
    settled.current = true;
    config.onSettled?.();
    setEnding(shown);
    done(value);
  };
  const turn = (line: number, by = 1): void => {
    setActive(line);
    setStates(turned(config, states, line, by));
  };
  const count = config.lines.length;
  useKeypress((key: KeypressEvent, rl) => {
    rl.clearLine(0);
    if (isEnterKey(key)) finish(chosen(config, states), endedList(config, screen, states));
    else if (isUpKey(key)) setActive((active + count - 1) % count);
    else if (isDownKey(key)) setActive((active + 1) % count);
    else if (isSpaceKey(key) || key.name === 'right') turn(active);
    else if (key.name === 'left') turn(active, -1);
    else if (isNumberKey(key)) {
      const line = Number(key.name) - 1;
      if (line >= 0 && line < count) turn(line);
    } else if (!key.ctrl) {
      const { sequence } = key as KeypressEvent & { sequence?: string };
      const action = config.actions.find((a) => a.key === key.name || a.key === sequence);
      if (action !== undefined) finish(action.value, screen.style.quiet(`  ${action.name}`));
    }
  });
  return ending ?? layOutList(config, screen, states, active);
});

/** A line of free text at the prompt. */
import { createPrompt, isEnterKey, useEffect, useKeypress, useRef, useState } from '@inquirer/core';
import { fit, type Style } from '../report/style.ts';
import { paragraph } from '../report/wrap.ts';
import { onClosed } from './on-closed.ts';

/** columns for an answer on the line of its question */
const ROOM = 8;

export interface TextConfig {
  readonly message: string;
  readonly style: Style;
  readonly onClose: () => void;
  /** told once the question stands on the screen, and once it is settled */
  readonly onShown?: () => void;
  readonly onSettled?: () => void;
  /** told a function to call when the screen belongs to the program again; gives one back that ends it */
  readonly onRedraw?: (redraw: () => void) => () => void;
}

export const textPrompt = createPrompt<string, TextConfig>((config, done) => {
  const { message, style, onClose } = config;
  const [value, setValue] = useState('');
  const [ended, setEnded] = useState(false);
  const settled = useRef(false);
  useEffect((rl) => onClosed(rl, () => settled.current || onClose()), []);
  const drawn = useRef(0);
  const [, setDrawn] = useState(0);
  useEffect(() => config.onShown?.(), []);
  useEffect(() => config.onRedraw?.(() => settled.current || setDrawn((drawn.current += 1))), []);
  useKeypress((key, rl) => {
    if (isEnterKey(key)) {
      settled.current = true;
      config.onSettled?.();
      setEnded(true);
      done(value);
    } else setValue(rl.line);
  });
  // Folded between words; room is left for a short answer beside it.
  const label = paragraph(fit(message, style), style.width - ROOM);
  return ended ? `${label} ${style.strong(value)}` : `${style.strong(label)} ${value}`;
});

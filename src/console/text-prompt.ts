/** A line of free text at the prompt. */
import { createPrompt, isEnterKey, useEffect, useKeypress, useRef, useState } from '@inquirer/core';
import { toAscii, type Style } from '../report/style.ts';
import { onClosed } from './on-closed.ts';

export interface TextConfig {
  readonly message: string;
  readonly style: Style;
  readonly onClose: () => void;
}

export const textPrompt = createPrompt<string, TextConfig>(({ message, style, onClose }, done) => {
  const [value, setValue] = useState('');
  const [ended, setEnded] = useState(false);
  const settled = useRef(false);
  useEffect((rl) => onClosed(rl, () => settled.current || onClose()), []);
  useKeypress((key, rl) => {
    if (isEnterKey(key)) {
      settled.current = true;
      setEnded(true);
      done(value);
    } else setValue(rl.line);
  });
  const label = style.unicode ? message : toAscii(message);
  return ended ? `${label} ${style.strong(value)}` : `${style.strong(label)} ${value}`;
});

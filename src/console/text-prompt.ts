/** A line of free text at the prompt. */
import { createPrompt, isEnterKey, useKeypress, useState } from '@inquirer/core';
import { fit, type Style } from '../report/style.ts';
import { paragraph } from '../report/wrap.ts';
import { useLife, type Life } from './life.ts';

/** columns for an answer on the line of its question */
const ROOM = 8;

export interface TextConfig extends Life {
  readonly message: string;
  readonly style: Style;
}

export const textPrompt = createPrompt<string, TextConfig>((config, done) => {
  const { message, style } = config;
  const [value, setValue] = useState('');
  const [ended, setEnded] = useState(false);
  const settle = useLife(config);
  useKeypress((key, rl) => {
    if (isEnterKey(key)) {
      settle();
      setEnded(true);
      done(value);
    } else setValue(rl.line);
  });
  // Folded between words; room is left for a short answer beside it.
  const label = paragraph(fit(message, style), style.width - ROOM);
  return ended ? `${label} ${style.strong(value)}` : `${style.strong(label)} ${value}`;
});

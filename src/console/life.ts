/** From the first drawing of a prompt to its answer: what every prompt of our own tells its surroundings, and is told. */
import { useEffect, useRef, useState } from '@inquirer/core';
import { onClosed } from './on-closed.ts';

export interface Life {
  /** called when the input ends before an answer; the library itself would wait for ever */
  readonly onClose: () => void;
  /** told a function to call when the screen was resized, or belongs to the program again; gives one back that ends it */
  readonly onRedraw?: (redraw: () => void) => () => void;
  /** told once the prompt stands on the screen, and once it is settled: whether it is gone back from */
  readonly onShown?: () => void;
  readonly onSettled?: (back: boolean) => void;
  /** told of a key that came once it was settled, and was not meant for it */
  readonly onAfter?: (key: string) => void;
}

/** @returns what to call with the answer, before the prompt is done: from then on nothing is drawn or reported */
export function useLife({ onClose, onRedraw, onShown, onSettled }: Life): (back?: boolean) => void {
  // The reader is closed after an answer too.
  const settled = useRef(false);
  const drawn = useRef(0);
  const [, setDrawn] = useState(0);
  useEffect((rl) => onClosed(rl, () => settled.current || onClose()), []);
  useEffect(() => onShown?.(), []);
  useEffect(() => onRedraw?.(() => settled.current || setDrawn((drawn.current += 1))), []);
  return (back = false) => {
    settled.current = true;
    onSettled?.(back);
  };
}

/** One question at the prompt: digits answer at once, arrows and return too, letters for everything else. */
import {
  createPrompt,
  isDownKey,
  isEnterKey,
  isNumberKey,
  isUpKey,
  useEffect,
  useKeypress,
  useRef,
  useState,
  type KeypressEvent,
} from '@inquirer/core';
import type { Sure } from '../casework/case.ts';
import { digit } from './digit.ts';
import { useLife, type Life } from './life.ts';
import {
  answered,
  BACK,
  HELP,
  layOut,
  SAID,
  NOWHERE,
  SURE_WORDS,
  SURENESS,
  type Action,
  type Asked,
  type Screen,
} from './question-lines.ts';
import { byWords, isInAny, mayBegin } from './word-choice.ts';

/** A letter that does something, and may begin a choice's words as well, waits so long for the next one; milliseconds. */
const HOLD = 700;

export interface Chosen {
  /** of the choice or the letter */
  readonly value: string;
  readonly sure: Sure;
  /** the user's own words, where the value is SAID; where numbers are taken, also the digit that picked a choice */
  readonly text?: string;
}

export interface QuestionConfig extends Asked, Life {
  readonly screen: () => Screen;
}

export const questionPrompt = createPrompt<Chosen, QuestionConfig>((config, done) => {
  const { choices, stays = config.message } = config;
  const screen = config.screen();
  // Return behind a number that was not heard must answer nothing.
  const begin = config.deliberate === true || config.numbers !== undefined ? NOWHERE : (config.start ?? 0);
  const [active, setActive] = useState(begin);
  const [typed, setTyped] = useState('');
  const [said, setSaid] = useState(config.before ?? '');
  // Words of a choice, typed letter by letter; several may come before it is drawn again.
  const [word, draw] = useState('');
  const spelt = useRef('');
  // A number of the user's own, as far as it is typed.
  const figure = useRef('');
  const setWord = (text: string): void => {
    spelt.current = text;
    draw(text);
  };
  const held = useRef<ReturnType<typeof setTimeout> | undefined>(undefined);
  // The choice that was pointed at before a letter that waits.
  const stood = useRef(active);
  const [lost, setLost] = useState(false);
  // A word that was refused is typed anew, not gone on with.
  const refused = useRef(false);
  const [sure, drawSure] = useState<Sure>(config.sure ?? 'sure');
  // A digit may answer in the same breath as the letter before it.
  const surely = useRef(sure);
  const [ending, setEnding] = useState<string | undefined>(undefined);
  const settle = useLife(config);
  useEffect((rl) => {
    if (config.before !== undefined) rl.write(config.before);
  }, []);
  const names = choices.map(({ name }) => name);
  const layout = layOut(config, screen, {
    active,
    typed: word === '' ? typed : word.trimStart(),
    sure,
    said,
    lost,
  });
  const actions = layout.folded ? [HELP, ...config.actions] : config.actions;
  const finish = (value: string, shown: string, text?: string): void => {
    clearTimeout(held.current);
    settle(value === BACK);
    setEnding(shown);
    done({ value, sure: surely.current, ...(text === undefined ? {} : { text }) });
  };
  const answer = (value: string, name: string, text?: string): void =>
    finish(
      value,
      answered(
        stays,
        `${name}${surely.current === 'sure' ? '' : ` (${SURE_WORDS[surely.current]})`}`,
        screen,
      ),
      text,
    );
  // Not knowing, and putting off, is not surer or less sure.
  const leaveOpen = (value: string, name: string): void => finish(value, answered(stays, name, screen));
  const act = (action: Action): void => {
    if (action.answers === true) leaveOpen(action.value, action.stays ?? action.name);
    else finish(action.value, screen.style.quiet(`  ${action.name}`));
  };
  const actionOf = (action: Action | undefined): (() => void) | undefined =>
    action === undefined ? undefined : () => act(action);
  const isSure = (is: (one: string) => boolean): boolean =>
    config.sure !== undefined && is('s') && actions.every((a) => a.key !== 's');
  const nextSure = (): void => {
    surely.current = SURENESS[(SURENESS.indexOf(surely.current) + 1) % SURENESS.length]!;
    drawSure(surely.current);
  };
  const spell = (text: string): void => {
    setWord(text);
    setTyped('');
    setLost(false);
    const at = byWords(text, names);
    setActive(at ?? (text === '' ? begin : NOWHERE));
  };
  const unspell = (): void => {
    setWord('');
    setActive(stood.current);
  };
  const move = (to: number): void => {
    setTyped('');
    setWord('');
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
    if (
      config.numbers !== undefined &&
      (figure.current !== '' || (spelt.current === '' && isFigure(sequence)))
    ) {
      const text = figure.current.trim();
      const picked = /^\d$/.test(text) ? choices[Number(text) - 1] : undefined;
      if (!isEnterKey(key)) {
        clearTimeout(held.current);
        figure.current = rl.line;
        setTyped(rl.line);
        const at = Number(rl.line) - 1;
        setActive(choices[at] === undefined ? NOWHERE : at);
      } else if (picked !== undefined) answer(picked.value, picked.name, text);
      else if (text !== '') finish(SAID, answered(stays, text, screen), text);
      return;
    }
    // What was typed is a command, never a text to keep.
    rl.clearLine(0);
    clearTimeout(held.current);
    if (refused.current && !isEnterKey(key) && key.name !== 'backspace') setWord('');
    refused.current = false;
    const begun = spelt.current;
    const letter = sequence ?? '';
    const is = (one: string): boolean => one === key.name || one === sequence;
    const does = isSure(is) ? nextSure : actionOf(actions.find((a) => is(a.key)));
    const goesOn = begun !== '' && isWord(key, letter);
    // A letter that waits, and no other behind it, was the key and not a word.
    const waits = isSure((one) => one === begun) ? nextSure : actionOf(actions.find((a) => a.key === begun));
    if (waits !== undefined && !goesOn && key.name !== 'backspace') {
      unspell();
      waits();
      if (waits !== nextSure && !isEnterKey(key)) config.onAfter?.(letter);
      if (waits !== nextSure || isEnterKey(key)) return;
    }
    if (isEnterKey(key)) {
      const choice = choices[(begun === '' ? active : byWords(begun, names)) ?? NOWHERE];
      if (choice !== undefined) answer(choice.value, choice.name);
      else if (begun !== '') {
        setLost(true);
        refused.current = true;
      }
    } else if (isUpKey(key)) move(active - 1);
    else if (isDownKey(key)) move(active + 1);
    // "Within 3 psi": a digit behind a word is one more letter of it, where a word of a choice begins with it.
    else if (goesOn || (isNumberKey(key) && spelt.current.trim() !== '' && isInAny(key.name, names)))
      spell(`${begun}${letter}`);
    else if (isNumberKey(key)) {
      setWord('');
      const { chosen, typed: number } = digit(typed, key.name, choices.length);
      setTyped(number);
      if (chosen !== undefined) answer(choices[chosen]!.value, choices[chosen]!.name);
      else if (number !== '') setActive(Number(number) - 1);
      else setLost(true);
    } else if (key.name === 'backspace') {
      setTyped('');
      if (begun !== '') spell(begun.slice(0, -1));
    } else if (!key.ctrl) {
      if (does !== undefined && letter !== '' && mayBegin(letter, names)) {
        stood.current = active;
        spell(letter);
        held.current = setTimeout(() => {
          unspell();
          does();
        }, HOLD);
      } else if (does !== undefined) does();
      else if (letter === ' ' || (/^\p{L}$/u.test(letter) && isInAny(letter, names))) spell(letter);
      else if (isWord(key, sequence)) setLost(true);
    }
  });
  return ending ?? [...layout.lines, layout.input].join('\n');
});

/** Whether a key begins a number. */
function isFigure(sequence: string | undefined): boolean {
  return /^[\d.,~]$/.test(sequence ?? '');
}

/** Whether a key begins a text: anything that is printed but a digit. */
function isWord(key: KeypressEvent, sequence: string | undefined): boolean {
  return !key.ctrl && !isNumberKey(key) && /^[^\p{Cc}]+$/u.test(sequence ?? '');
}

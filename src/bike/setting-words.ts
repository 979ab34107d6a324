/** Settings of a bike in words, as they are said in the pits. */
import type { Circuit, End } from './sheet.ts';

const CIRCUIT_WORDS: Readonly<Record<Circuit, string>> = {
  'rebound.low': 'low-speed rebound',
  'rebound.high': 'high-speed rebound',
  'compression.low': 'low-speed compression',
  'compression.high': 'high-speed compression',
};

const PATH_WORDS: Readonly<Record<string, string>> = {
  ...CIRCUIT_WORDS,
  spring: 'spring',
  'spring.rate': 'coil',
  'spring.preload': 'preload',
  'ramp-up': 'ramp-up',
  tyre: 'tyre',
  'sag.measured': 'sag',
  'travel-used': 'travel used',
};

/** `rebound.low` → `low-speed rebound` */
export function circuitWords(circuit: Circuit, end?: End): string {
  return end === undefined ? CIRCUIT_WORDS[circuit] : `${end} ${CIRCUIT_WORDS[circuit]}`;
}

/** `front.rebound.low` → `front low-speed rebound`; a name of which no words are known stays as it is. */
export function settingWords(setting: string): string {
  if (setting === 'bars') return 'spacers under the stem';
  const [, end, path] = /^(front|rear)\.(.+)$/.exec(setting) ?? [];
  const words = PATH_WORDS[path ?? ''];
  return words === undefined ? setting : `${end} ${words}`;
}

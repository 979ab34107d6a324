/** Builds compiled rules straight from numbers, for tests that need exact probabilities instead of words. */
import type { CompiledRules, Question } from '../../src/rulebase/compiled.ts';
import { rulesOf } from './compile-text.ts';

export interface PlainQuestion {
  readonly id: string;
  readonly answers: readonly string[];
  /** the default is answer 0 */
  readonly several?: 'cancel' | 'any' | number;
  readonly base: readonly number[];
  readonly links: readonly (readonly [cause: number, answer: number, strength: number])[];
  readonly group?: string;
}

export interface PlainNetwork {
  /** prior probability a cause */
  readonly priors: readonly number[];
  /** the setting each cause is a direction of; default: one each */
  readonly settings?: readonly number[];
  readonly questions: readonly PlainQuestion[];
  readonly most?: number;
  /** the settings that are of the rider, and the most causes in a set with one of those */
  readonly riders?: readonly number[];
  readonly besideRider?: number;
}

const STANDING = { source: 'from-memory', status: 'trial', at: 'test/test.yaml:1' } as const;
let base: CompiledRules | undefined;

export function network({
  priors,
  settings,
  questions,
  most = priors.length,
  riders = [],
  besideRider,
}: PlainNetwork): CompiledRules {
  base ??= rulesOf({
    'a.yaml': `
settings:
  - {id: x, name: x, plain: x, kind: damper, source: from-memory, status: trial, directions: {up: {name: x, plain: x, prior: rarely}, down: {name: x, plain: x, prior: rarely}}}
`,
  });
  const own = settings ?? priors.map((_, i) => i);
  const count = Math.max(-1, ...own) + 1;
  return {
    ...base,
    numbers: {
      ...base.numbers,
      'causes-at-once': most,
      ...(besideRider === undefined ? {} : { 'at-once-beside': { rider: besideRider } }),
    },
    settings: Array.from({ length: count }, (_, s) => ({
      id: `s${s}`,
      name: `s${s}`,
      plain: '',
      kind: riders.includes(s) ? ('rider' as const) : ('damper' as const),
      causes: own.flatMap((o, c) => (o === s ? [c] : [])),
      ...STANDING,
    })),
    causes: priors.map((prior, i) => ({
      id: `c${i}`,
      setting: own[i]!,
      direction: `d${i}`,
      name: `c${i}`,
      plain: '',
      prior,
    })),
    questions: questions.map((q): Question => ({
      id: q.id,
      ask: q.id,
      plain: q.id,
      help: q.id,
      how: 'recall',
      minutes: 1,
      topic: q.group ?? q.id,
      group: q.group ?? q.id,
      gates: [],
      safety: false,
      dangerous: {},
      answers: q.answers.map((id) => ({ id, text: id })),
      default: 0,
      several: q.several ?? 'cancel',
      base: q.base,
      links: q.links,
      implies: {},
      confusable: [],
      ...STANDING,
    })),
    adjustments: [],
    cautions: [],
  };
}

/** A yes/no question with one sign: the leaky noisy-OR. */
export function yesNo(
  id: string,
  leak: number,
  links: Readonly<Record<number, number>>,
  group?: string,
): PlainQuestion {
  return {
    id,
    answers: ['no', 'yes'],
    base: [0, leak],
    links: Object.entries(links).map(([cause, s]) => [Number(cause), 1, s] as const),
    ...(group === undefined ? {} : { group }),
  };
}

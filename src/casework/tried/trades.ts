/** One change that made one thing better and another worse: what lies between may do for both. */
import { isOneChange, type TriedEffect } from './weigh-tried.ts';

export interface Trade {
  readonly better: TriedEffect;
  readonly worse: TriedEffect;
}

/** In the order in which they were told; a change that did the bike as a whole good or harm is none. */
export function tradesOf(effects: readonly TriedEffect[]): Trade[] {
  const parts = effects.filter(({ tried }) => tried.for !== undefined);
  return parts.flatMap((better) => {
    if (better.tried.result !== 'better') return [];
    const worse = parts.find((one) => one.tried.result === 'worse' && isOneChange(better, one));
    return worse === undefined ? [] : [{ better, worse }];
  });
}

/** The result of one case as data: stable, versioned, in ids and in words; every printed form is made from it. */
import type { Change } from '../../bike/change.ts';
import type { CompiledRules } from '../../rulebase/compiled.ts';
import type * as z from 'zod';
import type { resultSchema } from '../rules/result-schema.ts';

export const RESULT_FORMAT = 1;

/** What `report/rules/result-schema.ts` promises to scripts. */
export type Result = Told<z.infer<typeof resultSchema>>;
export type ResultCause = Result['causes'][number];
export type ResultCaution = Result['cautions'][number];
/** One adjustment of a result: what to do on this bike, what for, how likely it helps and harms, and the way back. */
export type ResultAdjustment = Result['adjustments'][number];

/** Data that is only read; a key that may be left out holds something where it is there. */
type Told<T> = T extends readonly (infer One)[]
  ? readonly Told<One>[]
  : T extends object
    ? { readonly [K in keyof T]: Told<Exclude<T[K], undefined>> }
    : T;

/** The adjustment to do first, where one is advised. */
export function firstOf({
  adjustments,
  first,
}: Pick<Result, 'adjustments' | 'first'>): ResultAdjustment | undefined {
  return adjustments.find(({ id }) => id === first);
}

export const PROMISES = ['fix', 'aimed', 'help', 'none'] as const;
export type Promised = (typeof PROMISES)[number];

/** What a change is said to do for a complaint; what hangs on a cause that is not likely itself is promised to nobody. */
export function promised(helped: number, likely: number, told: CompiledRules['numbers']['advice']): Promised {
  if (helped >= told['should-fix']) return likely >= told['should-fix'] ? 'fix' : 'aimed';
  return helped >= told['may-help'] ? 'help' : 'none';
}

/** Behind the key of a reading: the word that writes its target down, as T. */
export const TARGET = '.wanted=T%';

/** What is turned, where something is. */
export function changeOf({
  setting,
  by,
  unit,
}: Pick<ResultAdjustment, 'setting' | 'by' | 'unit'>): Change | undefined {
  return setting === null || by === null || unit === null ? undefined : { setting, by, unit };
}

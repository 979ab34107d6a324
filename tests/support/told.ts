/** The rules that come along, their model, a bare bike, and cases told in a line: what a test about a diagnosis begins from. */
import type { Case, CaseAnswer } from '../../src/casework/case.ts';
import { bareBike, baseModel, baseRules } from './base-rules.ts';

export const { rules } = baseRules();
export const model = baseModel();
/** a bike of which nothing is known */
export const bench = bareBike();

/** What was looked at before riding, and nothing found. */
export const SOUND = { 'safety.found': 'none', 'safety.brakes': 'good' } as const;

/** @param said question → answer, each one sure */
export function answersOf(said: Readonly<Record<string, string>>): CaseAnswer[] {
  return Object.entries(said).map(([question, answer]) => ({ question, answer, sure: 'sure' }));
}

/** @param rest what is more than answers */
export function caseOf(said: Readonly<Record<string, string>>, rest: Partial<Case> = {}): Case {
  return { id: 'x', answers: answersOf(said), results: [], earlier: [], ...rest };
}

/** Rows bother the rider, and the sag at the front is as told. */
export const toldOf = (sag: string): Case => caseOf({ complaint: 'rows', 'sag@front': sag });

/** The rules in the words of one bike: where an end has one rebound knob, nothing speaks of two. */
import { isAlone } from '../bike/settings.ts';
import { CIRCUITS } from '../bike/circuits.ts';
import { ENDS, type BikeSheet, type End } from '../bike/sheet.ts';
import type { CompiledRules } from '../rulebase/compiled.ts';

/** The same rules, every index as it was; only texts differ. */
export function inWordsOf(rules: CompiledRules, sheet: BikeSheet | undefined): CompiledRules {
  const ends = new Set(sheet === undefined ? [] : ENDS.filter((end) => hasOneKnob(sheet, end)));
  if (ends.size === 0) return rules;
  const worded = <T extends { readonly end?: End; readonly oneKnob?: Partial<T> }>(entry: T): T =>
    entry.oneKnob !== undefined && entry.end !== undefined && ends.has(entry.end)
      ? { ...entry, ...entry.oneKnob }
      : entry;
  return {
    ...rules,
    settings: rules.settings.map((s) => worded(s)),
    causes: rules.causes.map((cause) => {
      const { end } = rules.settings[cause.setting]!;
      return cause.oneKnob !== undefined && end !== undefined && ends.has(end)
        ? { ...cause, ...cause.oneKnob }
        : cause;
    }),
    questions: rules.questions.map((q) => worded(q)),
    adjustments: rules.adjustments.map((a) => worded(a)),
  };
}

function hasOneKnob(sheet: BikeSheet, end: End): boolean {
  return CIRCUITS.some((circuit) => isAlone(sheet, end, circuit));
}

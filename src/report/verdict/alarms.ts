/** What must be checked before riding: what every printed form of a result says first, in the same words. */
import type { Question } from '../../rulebase/compiled.ts';
import { askWords, type Audience, type WordedRules } from '../evidence-words.ts';
import { MOST_NAME, printable } from '../foreign-text.ts';
import type { Result } from '../result/result.ts';
import type { Words } from './voice.ts';
import { paragraph } from '../wrap.ts';

/**
 * A safety question that is open before a change is set, or words that speak of a danger; each once.
 * @returns by id of the question to ask; none where the bike must not be ridden anyway
 */
export function alarmsOf(r: Result, rules: WordedRules, audience: Audience): Map<string, string> {
  const asked = new Map<string, string>();
  if (r.verdict === 'stop') return asked;
  // Before a change is set, what keeps the rider safe is asked.
  const next = rules.questions.find((q) => q.id === r.next?.question);
  if (next?.safety === true && r.verdict === 'change') asked.set(next.id, askWords(rules, next.id, audience));
  const dangers = r.unconfirmed.flatMap(({ phrase, question, danger }) => {
    const rule = danger === true ? rules.questions.find((q) => q.id === question) : undefined;
    return rule === undefined ? [] : [{ phrase, found: askedFirst(rule, rules) }];
  });
  const said = new Set<string>();
  // What a phrase says is asked once: by the safety question, where it may answer that and a look in the stand too.
  const safest = dangers.toSorted((a, b) => Number(b.found.safety) - Number(a.found.safety));
  for (const { phrase, found } of safest) {
    if (said.has(found.id) || said.has(phrase)) continue;
    said.add(found.id).add(phrase);
    asked.set(found.id, `"${printable(phrase, MOST_NAME)}" was said. ${askWords(rules, found.id, audience)}`);
  }
  return asked;
}

/** The alarms as lines of any form, before its own marks. */
export function alarmTexts(alarms: ReadonlyMap<string, string>): string[] {
  return [...alarms.values()].map((alarm) => `Check before riding: ${alarm}`);
}

export function alarmLines(alarms: ReadonlyMap<string, string>, { style }: Words): string[] {
  return alarmTexts(alarms).map((text) => paragraph(style.warn(text), style.width, '! '));
}

/** What was said and is not confirmed, without what an alarm asks already. */
export function quietPhrases(
  unconfirmed: Result['unconfirmed'],
  rules: WordedRules,
  alarms: ReadonlyMap<string, string>,
): Result['unconfirmed'] {
  const isAlarm = (id: string | null): boolean => {
    const question = rules.questions.find((q) => q.id === id);
    return question !== undefined && alarms.has(askedFirst(question, rules).id);
  };
  return unconfirmed.filter((u) => u.danger !== true && !isAlarm(u.question));
}

/** The question that is asked of a danger: another safety question, where this one waits for it. */
function askedFirst(question: Question, rules: WordedRules): Question {
  const waits = question.gates.filter((g) => g.on === 'question').map((g) => g.id);
  return rules.questions.find((q) => q.safety && waits.includes(q.id)) ?? question;
}

/** What spoke for or against a cause, in words: answers, readings of the bike sheet, and results of trials. */
import { capital } from '../form/text.ts';
import type { CompiledRules } from '../rulebase/compiled.ts';
import { changeWords, outcomeWord, wayWords } from './bike/change-words.ts';
import { MOST_NAME, printable } from './foreign-text.ts';
import type { ResultCause } from './result/result.ts';

export type WordedRules = Pick<
  CompiledRules,
  'questions' | 'settings' | 'causes' | 'adjustments' | 'againstTest' | 'leftAlone' | 'offTarget'
>;

/** Who reads it: a mechanic, in trade terms, or a rider alone, in plain words. */
export type Audience = 'mechanic' | 'rider';

/** Characters of a question or an answer. */
const MOST = 200;

/**
 * @param evidence of a result: its question is one of the rules, or `bike.` and a setting, and its answer one of that question
 * or the deviation on the sheet; or it is the outcome of something that was done
 */
export function evidenceWords(
  rules: WordedRules,
  {
    question: id,
    answer: answerId,
    trial,
    tried,
    unsized,
    measured,
  }: Omit<ResultCause['evidence'][number], 'decibans'>,
  audience: Audience = 'mechanic',
): { readonly question: string; readonly answer: string } {
  const question = rules.questions.find((q) => q.id === id);
  if (question !== undefined) {
    const text = question.answers.find((a) => a.id === answerId)?.text ?? answerId;
    const answer = printable(measured === undefined ? text : `${text} (${measured})`, MOST);
    return { question: capital(printable(asked(question, audience), MOST)), answer };
  }
  const setting = rules.settings.find((s) => `bike.${s.id}` === id);
  if (setting !== undefined)
    return {
      question: printable(`Bike sheet: ${setting.name}`, MOST),
      answer: deviationWords(answerId, setting.sheet ?? 'clicks'),
    };
  const done = trial ?? tried;
  if (done !== undefined)
    return {
      question: printable(
        `${trial === undefined ? 'Tried before' : 'Trial'}: ${unsized === true ? wayWords(done, rules) : changeWords(done, undefined, rules)}`,
        MOST,
      ),
      answer: printable(outcomeWord(answerId), MOST_NAME),
    };
  return { question: capital(printable(id, MOST)), answer: printable(answerId, MOST) };
}

/** `What bothers the rider most? Corners and berms` */
export function evidenceText(
  rules: WordedRules,
  evidence: Parameters<typeof evidenceWords>[1],
  audience: Audience,
): string {
  const { question, answer } = evidenceWords(rules, evidence, audience);
  return /[?.]$/.test(question) ? `${question} ${capital(answer)}` : `${question}: ${answer}`;
}

/** Behind a question that a rider is to answer alone, the answers to choose from; a mechanic's question has them in it. */
export function choiceWords(rules: WordedRules, id: string, audience: Audience): string {
  const answers = rules.questions.find((q) => q.id === id)?.answers ?? [];
  if (audience === 'mechanic' || answers.length === 0) return '';
  return ` Answers: ${answers.map(({ text }) => printable(text, MOST)).join('; ')}.`;
}

/** The words of a question; its id when it is not in the rules. */
export function askWords(rules: WordedRules, id: string, audience: Audience = 'mechanic'): string {
  const question = rules.questions.find((q) => q.id === id);
  return capital(printable(question === undefined ? id : asked(question, audience), MOST));
}

function asked({ ask, plain }: WordedRules['questions'][number], audience: Audience): string {
  return audience === 'rider' ? plain : ask;
}

/** Beside a deviation of sag that is held up by too much preload. */
export const HELD_UP = 'held up';

/** Beside a tyre pressure that is told against what is usual for the rider's weight. */
export const BY_WEIGHT = 'by weight';

function deviationWords(told: string, sheet: 'clicks' | 'sag' | 'tyre'): string {
  const [deviation = '', ...beside] = told.split(' ');
  const size = Number(deviation.replace(/^[+-]/, ''));
  const amount = String(Number.isFinite(size) ? Math.round(size) : deviation.replace(/^[+-]/, ''));
  if (/^0*\.?0*$/.test(amount)) return 'as recommended';
  const more = !deviation.startsWith('-');
  switch (sheet) {
    case 'clicks':
      return `${amount} ${amount === '1' ? 'click' : 'clicks'} more ${more ? 'open' : 'closed'} than recommended`;
    case 'sag':
      if (beside.join(' ') === HELD_UP)
        return `too much preload holds it up; without that, sag ${amount} points ${more ? 'over' : 'under'} the target`;
      return `sag ${amount} points ${more ? 'over' : 'under'} the target`;
    case 'tyre':
      if (beside.join(' ') === BY_WEIGHT)
        return `${amount} % ${more ? 'over' : 'under'} what is usual for this weight`;
      return `${amount} % ${more ? 'over' : 'under'} the target pressure`;
  }
}

/** A figure of a gauge that the rider's words tell of: held against its target and read back, and kept only where it is confirmed. */
import type { PreparedBike } from '../../../advice/prepared-bike.ts';
import type { CaseAnswer } from '../../../casework/case.ts';
import { readNumber } from '../../../bike/gauge/read-number.ts';
import { capital } from '../../../form/text.ts';
import type { Prompter } from '../../../console/prompter.ts';
import type { CompiledRules, Question } from '../../../rulebase/compiled.ts';
import type { SaidShare } from '../../../words/figures.ts';
import { askNumber, gaugeHere } from '../number-prompt.ts';

export interface SaidFigure extends SaidShare {
  readonly question: Question;
}

/** The figures that a text tells of, each with the question that its gauge answers on this bike. */
export async function figuresIn(
  said: string,
  rules: CompiledRules,
  bench: PreparedBike,
): Promise<SaidFigure[]> {
  const { saidShares } = await import('../../../words/figures.ts');
  return rules.questions.flatMap((question) => {
    const called = gaugeHere(question, bench)?.called;
    return called === undefined
      ? []
      : saidShares(said, called, rules, mayBe(question)).map((one) => ({ ...one, question }));
  });
}

/** Whether the gauge of the question reads such a figure, and at this end. */
function mayBe({ gauge, end }: Question): (one: Pick<SaidShare, 'figure' | 'end'>) => boolean {
  return (one) =>
    gauge !== undefined &&
    one.end === end &&
    readNumber(one.figure, gauge.reads, { end, whole: undefined, pressure: undefined, like: gauge.like }).ok;
}

/** @returns undefined where it was not meant so; `back` where it is gone back from */
export async function confirmFigure(
  prompter: Prompter,
  { text, figure, question }: SaidFigure,
  bench: PreparedBike,
): Promise<CaseAnswer | 'back' | undefined> {
  const { value } = await prompter.ask({
    head: `"${text}"`,
    message: 'Did you measure this?',
    choices: [{ value: 'yes', name: `${capital(`${question.end} ${question.gauge?.reads}`)}: ${figure}` }],
    actions: [
      { key: 'n', value: 'none', name: 'no', answers: true },
      { key: 'b', value: 'back', name: 'back' },
    ],
  });
  if (value === 'back') return value;
  const { gauge, end } = question;
  if (value !== 'yes' || gauge === undefined || end === undefined) return undefined;
  const measure = await askNumber(prompter, figure, { ...question, gauge, end }, bench, {});
  return measure === undefined ? undefined : { question: question.id, ...measure };
}

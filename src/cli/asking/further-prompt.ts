/** Further answers to a question that takes several. */
import type { Prompter } from '../../console/prompter.ts';
import type { Question } from '../../rulebase/compiled.ts';

/** What else, where the question takes several answers; undefined when the first one is taken back. */
export async function askFurther(
  prompter: Prompter,
  question: Question,
  first: string,
  message: string,
): Promise<string[] | undefined> {
  const also: string[] = [];
  const none = question.answers[question.default]!.id;
  if (question.list !== true || first === none) return also;
  const textOf = (id: string): string => question.answers.find((a) => a.id === id)!.text;
  for (;;) {
    const said = [first, ...also];
    const left = question.answers.filter((a) => a.id !== none && !said.includes(a.id));
    if (left.length === 0) return also;
    const { value } = await prompter.ask({
      head: `So far: ${said.map(textOf).join('; ')}`,
      message,
      choices: [
        { value: 'enough', name: 'that is all' },
        ...left.map((a) => ({ value: `answer:${a.id}`, name: `and: ${a.text}` })),
      ],
      actions: [{ key: 'b', value: 'back', name: 'back' }],
    });
    if (value === 'enough') return also;
    if (value !== 'back') also.push(value.slice('answer:'.length));
    else if (also.pop() === undefined) return undefined;
  }
}

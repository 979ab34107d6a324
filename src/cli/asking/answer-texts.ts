/** Questions and the answers to them, as they are said to the one who is asked. */
import { writeNumber } from '../../bike/gauge/read-number.ts';
import { allOf } from '../../casework/several.ts';
import type { Interview } from '../../interview/state.ts';
import type { Audience } from '../../report/evidence-words.ts';
import { CANNOT_TELL, NOT_NOW, type Question } from '../../rulebase/compiled.ts';
import type { Workspace } from '../../workspace/workspace.ts';

export function questionOf(workspace: Workspace, id: string): Question {
  return workspace.rules.questions[workspace.model.questionIndex.get(id)!]!;
}

export function questionText(workspace: Workspace, id: string, audience: Audience): string {
  const { plain, ask } = questionOf(workspace, id);
  return audience === 'rider' ? plain : ask;
}

/** Every answer that was given, and the number it was made of. */
export function answersText(
  workspace: Workspace,
  id: string,
  given: Pick<Interview['steps'][number], 'answer' | 'also' | 'measured'>,
): string {
  const { measured } = given;
  const text = allOf(given)
    .map((answer) => answerText(workspace, id, answer))
    .join('; ');
  return measured === undefined ? text : `${text} (${writeNumber(measured.value, measured.unit)})`;
}

function answerText(workspace: Workspace, id: string, answer: string): string {
  if (answer === CANNOT_TELL) return "can't tell";
  if (answer === NOT_NOW) return 'not now';
  return questionOf(workspace, id).answers.find((a) => a.id === answer)?.text ?? answer;
}

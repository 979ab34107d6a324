/** Questions whose answers belong to a complaint, and are none by themselves. */
import { ENDS } from '../bike/sheet.ts';
import type { Question } from './compiled.ts';

/** Whether a question asks for nothing but the end: front, rear, or which of them. */
export function isAboutEnd({ end, answers, safety }: Question): boolean {
  return end === undefined && !safety && ENDS.every((one) => answers.some(({ id }) => id === one));
}

/** Whether it tells only at which end, since when or beside what something is. */
export function isNoComplaint(question: Question): boolean {
  return question.circumstance === true || isAboutEnd(question);
}

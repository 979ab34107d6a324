/** The end of an interview: the screen with the verdict, and all of the report a key away. */
import type { PreparedBike } from '../../advice/prepared-bike.ts';
import { consult } from '../../casework/consult.ts';
import { toCase, type Interview } from '../../interview/state.ts';
import type { Audience } from '../../report/evidence-words.ts';
import { lastScreen } from '../../report/last-screen.ts';
import type { Result } from '../../report/result/result.ts';
import { toResult } from '../../report/result/to-result.ts';
import { ridersListText } from '../../report/interview-text.ts';
import type { Style } from '../../report/style.ts';
import { taskWords } from '../../report/verdict/voice.ts';
import { textReport } from '../../report/text.ts';
import { MORE } from './end/ask-afterwards.ts';
import type { Workspace } from '../../workspace/workspace.ts';
import { withKnockOn } from '../../workspace/with-knock-on.ts';

/** What the answers so far come to. */
export async function resultOf(workspace: Workspace, bench: PreparedBike, state: Interview): Promise<Result> {
  const kase = toCase(state);
  const consultation = consult(workspace.model, bench, kase, {
    next: true,
    explain: 5,
    fit: true,
    keepAsking: state.keepAsking,
    skipPutOff: true,
  });
  return toResult(workspace.model, kase, consultation, { most: 3, ...(await workspace.said(kase)) });
}

/** Rows that the question below the last screen takes besides its choices: what now, the letters, the number, one blank. */
const QUESTION_ROWS = 4;

/** @param choices of the question below it */
export function endScreen(
  result: Result,
  { rules }: PreparedBike,
  style: Style,
  audience: Audience,
  rows: number | undefined,
  choices: number,
): string {
  return lastScreen(result, {
    style,
    audience,
    rules,
    rows: rows === undefined ? undefined : rows - QUESTION_ROWS - choices,
    key: MORE.key,
  });
}

/** All of the report, with what the model of the bike says, and what to check on the next ride as a list. */
export async function wholeReport(
  result: Result,
  workspace: Workspace,
  bench: PreparedBike,
  style: Style,
  audience: Audience,
): Promise<string> {
  const full = bench.sheet === undefined ? result : await withKnockOn(result, workspace, bench);
  // What to go and find out is told once, as a list.
  const report = textReport({ ...full, assignments: [] }, { style, rules: bench.rules, audience, more: '' });
  const list = result.assignments.map((a) => ({
    ...a,
    text: taskWords(a, { rules: bench.rules, audience }),
  }));
  return `${report}${list.length === 0 ? '' : `\n${ridersListText(list, style)}`}`;
}

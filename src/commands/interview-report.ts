/** The end of an interview: the report of `earshot diagnose`, then the rider's list. */
import type { Bench } from '../advice/bench.ts';
import { consult } from '../casework/consult.ts';
import { toCase, type Interview } from '../interview/state.ts';
import { toResult } from '../report/result.ts';
import { ridersListText } from '../report/riders-list.ts';
import type { Style } from '../report/style.ts';
import { inShort, textReport } from '../report/text.ts';
import type { Desk } from './desk.ts';
import { withKnockOn } from './with-knock-on.ts';

export async function finalReport(desk: Desk, bench: Bench, state: Interview, style: Style): Promise<string> {
  const kase = toCase(state);
  const consultation = consult(desk.model, bench, kase, {
    next: true,
    explain: 5,
    fit: true,
    keepAsking: state.keepAsking,
    skipPutOff: true,
  });
  const told = toResult(desk.model, bench, kase, consultation, {
    most: 3,
    unconfirmed: await desk.unconfirmed(kase),
  });
  const result = bench.sheet === undefined ? told : await withKnockOn(told, desk, bench.sheet);
  // What to go and find out is told once, as the rider's list.
  const report = textReport({ ...result, assignments: [] }, { style, rules: desk.rules, more: '' });
  const list = result.assignments;
  return `\n${report}${list.length === 0 ? '' : `\n${ridersListText(list, style)}`}\n${inShort(result, style)}`;
}

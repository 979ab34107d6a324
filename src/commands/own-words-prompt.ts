/** What bothers the rider, typed in own words: read, shown back, and counted only where it is confirmed. */
import type { CaseAnswer } from '../casework/case.ts';
import type { Prompter } from '../console/prompter.ts';
import type { Event } from '../interview/session.ts';
import { paragraph } from '../report/wrap.ts';
import type { Reading } from '../words/matcher.ts';
import type { Desk } from './desk.ts';

/** Readings offered at most; a rider who said more is asked the rest anyway. */
const MOST_OFFERED = 6;

export async function askOwnWords(desk: Desk, prompter: Prompter): Promise<Event[]> {
  const { buildMatcher } = await import('../words/matcher.ts');
  const said = (await prompter.text('In your own words:')).trim();
  if (said === '') return [];
  const readings = buildMatcher(desk.rules).match(said);
  const topics = new Set<string>();
  const answers: CaseAnswer[] = [];
  if (readings.length === 0) prompter.say('  No phrase of that is known; the questions will find out.\n');
  for (const reading of readings.slice(0, MOST_OFFERED)) {
    for (const id of [...reading.separates, ...reading.candidates.map((c) => c.question)]) {
      const index = desk.model.questionIndex.get(id);
      if (index !== undefined) topics.add(desk.rules.questions[index]!.topic);
    }
    if (reading.ambiguous) {
      prompter.say(
        `${paragraph(`"${reading.text}" can mean opposite things: ${reading.means.join('; or ')}. The questions will tell them apart.`, prompter.style.width, '  ')}\n`,
      );
      continue;
    }
    const confirmed = await offer(desk, prompter, reading);
    if (confirmed !== undefined) answers.push(confirmed);
  }
  return [
    { type: 'open', topics: [...topics], said },
    ...(answers.length === 0 ? [] : [{ type: 'confirm' as const, answers }]),
  ];
}

/** Shows what a reading could mean; undefined when none of it is meant. */
async function offer(desk: Desk, prompter: Prompter, reading: Reading): Promise<CaseAnswer | undefined> {
  if (reading.candidates.length === 0) return undefined;
  const chosen = await prompter.ask({
    head: `You said "${reading.text}"${reading.negated ? ' (denied)' : ''}`,
    message: 'Do you mean:',
    choices: reading.candidates.slice(0, 9).map(({ question, answer }, i) => {
      const q = desk.rules.questions[desk.model.questionIndex.get(question)!]!;
      return { value: String(i), name: `${q.ask} ${q.answers.find((a) => a.id === answer)?.text ?? answer}` };
    }),
    actions: [{ key: 'n', value: 'none', name: 'none of these' }],
  });
  const candidate = reading.candidates[Number(chosen)];
  return candidate === undefined
    ? undefined
    : { question: candidate.question, answer: candidate.answer, sure: 'sure' };
}

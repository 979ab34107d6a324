/** What bothers the rider, typed in own words: read, shown back, and counted only where it is confirmed. */
import type { BikeSheet } from '../../bike/sheet.ts';
import type { CaseAnswer, Sure } from '../../casework/case.ts';
import type { Prompter } from '../../console/prompter.ts';
import type { Event } from '../../interview/session.ts';
import { fit } from '../../report/style.ts';
import { quotedList } from '../../report/quoted-list.ts';
import { paragraph } from '../../report/wrap.ts';
import type { Reading } from '../../words/matcher.ts';
import { isAboutEnd } from '../../casework/which-end.ts';
import { askPaged } from './ask-paged.ts';
import { confirmTried } from './confirm-tried.ts';
import type { LastInterview } from '../../workspace/cases/last-interview.ts';
import type { Workspace } from '../../workspace/workspace.ts';
import { questionOf } from './interview-prompts.ts';
import { readingWords } from '../../report/reading-words.ts';
import type { Audience } from '../../report/evidence-words.ts';

/** Readings offered at most; a rider who said more is asked the rest anyway. */
const MOST_OFFERED = 6;

/** Reads what was said back, and takes what of it is confirmed. */
export async function hearOwnWords(
  workspace: Workspace,
  prompter: Prompter,
  audience: Audience,
  said: string,
  sheet?: BikeSheet,
): Promise<Event[]> {
  const [{ buildHearing }, { unheard }] = await Promise.all([
    import('../../words/hearing.ts'),
    import('../../words/unheard.ts'),
  ]);
  const tell = (text: string, lead = '  '): void => {
    const { style } = prompter;
    const lines = paragraph(text, style.width - 1, lead);
    prompter.say(`${fit(lines, style)}\n`);
  };
  const heard = buildHearing(workspace.rules, await workspace.words())(said);
  const { readings, tried } = heard;
  const topics = new Set<string>();
  const answers: CaseAnswer[] = [];
  const settled = new Set<Reading>();
  const rest = unheard(said, heard, workspace.rules);
  if (readings.length + tried.length === 0) tell("I don't know these words. I'll find out by asking.");
  else if (rest.length > 0) tell(`Not understood: ${quotedList(rest)}. I'll find out by asking.`);
  for (const reading of readings.slice(0, MOST_OFFERED)) {
    // What is denied bothers nobody: it neither leads the questions nor means opposite things.
    if (reading.negated && (reading.ambiguous || reading.candidates.length === 0)) {
      tell(`"${reading.text}": heard as a no.`);
      continue;
    }
    for (const id of [...reading.separates, ...reading.candidates.map((c) => c.question)]) {
      const index = workspace.model.questionIndex.get(id);
      if (index !== undefined) topics.add(workspace.rules.questions[index]!.topic);
    }
    if (reading.ambiguous) {
      tell(`"${reading.text}" can mean different things:`);
      for (const meaning of reading.means) tell(meaning, '  - ');
      tell("I'll ask which.");
      continue;
    }
    if (settled.has(reading)) continue;
    const against = readings.filter((r) => reading.clashes?.includes(r.text) === true && !settled.has(r));
    if (against.length > 0) {
      const chosen = await askWhich(workspace, prompter, [reading, ...against], audience);
      for (const one of [reading, ...against]) settled.add(one);
      if (chosen !== undefined) answers.push(chosen);
      continue;
    }
    const isEnd = (c: Reading['candidates'][number]): boolean =>
      isAboutEnd(questionOf(workspace, c.question));
    const open = reading.candidates.filter((c) => !answers.some((a) => a.question === c.question));
    const signs = open.filter((c) => !isEnd(c));
    // What is wrong at an end says which end it is; that alone is asked only where nothing else says it.
    const told = (c: Reading['candidates'][number]): boolean =>
      readings.some((r) => r.candidates.some((x) => questionOf(workspace, x.question).end === c.answer));
    answers.push(
      ...(await offer(
        workspace,
        prompter,
        { ...reading, candidates: signs.length > 0 ? signs : open.filter((c) => !isEnd(c) || !told(c)) },
        audience,
      )),
    );
  }
  const before = await confirmTried(prompter, tried, sheet);
  return [
    { type: 'open', topics: [...topics], said },
    ...(answers.length === 0 ? [] : [{ type: 'confirm' as const, answers }]),
    ...(before.length === 0 ? [] : [{ type: 'tried' as const, tried: before }]),
  ];
}

/** What bothered in the interview before bothers still: what was confirmed then is confirmed. */
export async function hearAgain(
  workspace: Workspace,
  { said, about, answers }: LastInterview,
): Promise<Event[]> {
  if (said === undefined) {
    const { openings } = workspace.rules;
    const opening = openings.find(({ topics }) => topics.join(' ') === about.join(' '));
    const picked = answers.filter(({ question, answer }) => opening?.answers[question] === answer);
    return [
      { type: 'open', topics: about },
      ...(picked.length === 0 ? [] : [{ type: 'confirm' as const, answers: picked }]),
    ];
  }
  const { buildHearing } = await import('../../words/hearing.ts');
  const { readings } = buildHearing(workspace.rules, await workspace.words())(said);
  const meant = readings.flatMap(({ candidates }) => candidates);
  const confirmed = answers.filter((a) =>
    meant.some(({ question, answer }) => question === a.question && answer === a.answer),
  );
  return [
    { type: 'open', topics: about, said },
    ...(confirmed.length === 0 ? [] : [{ type: 'confirm' as const, answers: confirmed }]),
  ];
}

/** Things said that do not go together: one of them holds, or none. */
async function askWhich(
  workspace: Workspace,
  prompter: Prompter,
  readings: readonly Reading[],
  audience: Audience,
): Promise<CaseAnswer | undefined> {
  // Only what they answer differently is in question.
  const all = readings.flatMap((r) => r.candidates);
  const candidates = all.filter((c) => all.some((o) => o.question === c.question && o.answer !== c.answer));
  const { value, sure } = await askPaged(prompter, {
    head: readings.map((r) => `"${r.text}"`).join(' and '),
    message: "These don't go together. Which is it?",
    choices: candidates.map(({ question, answer }, i) => ({
      value: String(i),
      name: readingWords(questionOf(workspace, question), answer, audience),
    })),
    actions: [{ key: 'n', value: 'none', name: 'neither', answers: true }],
    sure: 'sure',
    deliberate: candidates.some(({ question }) => questionOf(workspace, question).safety),
    terse: audience === 'mechanic',
  });
  const chosen = candidates[Number(value)];
  return chosen === undefined ? undefined : { question: chosen.question, answer: chosen.answer, sure };
}

/** Shows what a reading could mean, and what it could mean besides, until no more of it is meant. */
async function offer(
  workspace: Workspace,
  prompter: Prompter,
  reading: Reading,
  audience: Audience,
): Promise<CaseAnswer[]> {
  const confirmed: CaseAnswer[] = [];
  let { candidates } = reading;
  while (candidates.length > 0) {
    const first = confirmed.length === 0;
    const { value, sure }: { value: string; sure: Sure } = await prompter.ask({
      head: `"${reading.text}"${reading.negated ? ' (heard as a no)' : ''}`,
      message: first ? 'Did you mean this?' : 'And this too?',
      choices: candidates.map(({ question, answer }, i) => ({
        value: String(i),
        name: readingWords(questionOf(workspace, question), answer, audience),
      })),
      actions: [
        ...(candidates.length > 1 && areCompatible(workspace, candidates)
          ? [{ key: 'a', value: 'all', name: 'all of these', answers: true }]
          : []),
        { key: 'n', value: 'none', name: first ? 'no' : 'nothing else', answers: true },
      ],
      sure: 'sure',
      deliberate: candidates.some(({ question }) => questionOf(workspace, question).safety),
      terse: audience === 'mechanic',
    });
    if (value === 'all') {
      const all = candidates.map(({ question, answer }) => ({ question, answer, sure }));
      return [...confirmed, ...all];
    }
    const candidate = candidates[Number(value)];
    if (candidate === undefined) break;
    confirmed.push({ question: candidate.question, answer: candidate.answer, sure });
    candidates = candidates.filter((c) => c.question !== candidate.question);
  }
  return confirmed;
}

/** Whether all of them can hold at once: no question is answered twice, but one that takes several answers. */
function areCompatible(workspace: Workspace, candidates: Reading['candidates']): boolean {
  return candidates.every(
    ({ question }, i) =>
      questionOf(workspace, question).list === true ||
      candidates.findIndex((c) => c.question === question) === i,
  );
}

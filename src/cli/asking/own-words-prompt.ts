/** What bothers the rider, typed in own words: read, shown back, and counted only where it is confirmed. */
import type { BikeSheet } from '../../bike/sheet.ts';
import type { CaseAnswer, Sure } from '../../casework/case.ts';
import type { Prompter } from '../../console/prompter.ts';
import type { Event } from '../../interview/session.ts';
import { fit } from '../../report/style.ts';
import { quotedList } from '../../report/quoted-list.ts';
import { paragraph } from '../../report/wrap.ts';
import { sameEnd } from '../../words/clash.ts';
import type { Candidate, Reading } from '../../words/matcher.ts';
import { isAboutEnd } from '../../casework/which-end.ts';
import { askPaged } from './ask-paged.ts';
import { notMeantOf } from './not-meant.ts';
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
  const declined: Declined = { candidates: [], readings: [] };
  const rest = unheard(said, heard, workspace.rules);
  if (readings.length + tried.length === 0) tell("I don't know these words. I'll find out by asking.");
  else if (rest.length > 0) tell(`Not understood: ${quotedList(rest)}. I'll find out by asking.`);
  const offered = readings.slice(0, MOST_OFFERED);
  // Their meanings, all told, would fill the screen before the first question; `earshot words` lists them.
  const vague = offered.filter((r) => r.ambiguous && !r.negated).map((r) => r.text);
  if (vague.length > 0)
    tell(`${quotedList(vague)}: can mean different things. The next questions find out which.`);
  for (const reading of offered) {
    // What is denied bothers nobody: it neither leads the questions nor means opposite things.
    if (reading.negated && (reading.ambiguous || reading.candidates.length === 0)) {
      tell(`"${reading.text}": heard as a no.`);
      continue;
    }
    const lead = (): void => {
      for (const id of [...reading.separates, ...reading.candidates.map((c) => c.question)]) {
        const index = workspace.model.questionIndex.get(id);
        if (index !== undefined) topics.add(workspace.rules.questions[index]!.topic);
      }
    };
    if (reading.ambiguous) {
      lead();
      continue;
    }
    if (reading.negated && declined.readings.some((one) => holds(one, reading))) continue;
    const isEnd = (c: Candidate): boolean => isAboutEnd(questionOf(workspace, c.question));
    const left = (r: Reading): Candidate[] =>
      r.candidates.filter(
        (c) =>
          !answers.some((a) => sameEnd(a.question, c.question)) &&
          !declined.candidates.some((d) => same(d, c)),
      );
    const against = readings.filter((r) => r !== reading && reading.clashes?.includes(r.text) === true);
    const disputed = inDispute([reading, ...against].map(left));
    if (disputed.length > 0) {
      const heads = [...new Set([reading, ...against].map((r) => `"${r.text}"`))];
      const chosen = await askWhich(workspace, prompter, heads, disputed, audience);
      if (chosen !== undefined) answers.push(chosen);
      declined.candidates.push(
        ...disputed.filter((c) => c.question !== chosen?.question || c.answer !== chosen.answer),
      );
    }
    const open = left(reading);
    const signs = open.filter((c) => !isEnd(c));
    // What is wrong at an end says which end it is; that alone is asked only where nothing else says it.
    const told = (c: Candidate): boolean =>
      readings.some((r) => r.candidates.some((x) => questionOf(workspace, x.question).end === c.answer));
    const candidates = signs.length > 0 ? signs : open.filter((c) => !isEnd(c) || !told(c));
    if (candidates.length === 0) {
      if (reading.candidates.some((c) => answers.some((a) => sameEnd(a.question, c.question)))) lead();
      continue;
    }
    const meant = await offer(workspace, prompter, { ...reading, candidates }, audience);
    answers.push(...meant);
    // What was not meant does not lead the questions either.
    if (meant.length > 0) lead();
    else declined.readings.push(reading);
    declined.candidates.push(...candidates.filter((c) => !meant.some((m) => m.question === c.question)));
  }
  const before = await confirmTried(prompter, tried, { sheet, rules: workspace.rules });
  const notMeant = notMeantOf(declined.candidates, answers);
  return [
    { type: 'open', topics: [...topics], said, ...(notMeant === undefined ? {} : { notMeant }) },
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

/** What was offered and not meant. */
interface Declined {
  readonly candidates: Candidate[];
  /** of which nothing was meant */
  readonly readings: Reading[];
}

function same(a: Candidate, b: Candidate): boolean {
  return a.answer === b.answer && sameEnd(a.question, b.question);
}

/** Whether the words of one stand within those of the other. */
function holds(outer: Reading, inner: Reading): boolean {
  return (
    outer.position <= inner.position &&
    inner.position + inner.text.length <= outer.position + outer.text.length
  );
}

/** Of the ride as a whole several things may hold. */
const isOfEnd = ({ question }: Candidate): boolean => question.includes('@');

/** Only what two of them answer differently is in question, each answer of it once. */
function inDispute(said: readonly (readonly Candidate[])[]): Candidate[] {
  const disputed = said.flatMap((mine, i) =>
    mine.filter(
      (c) =>
        isOfEnd(c) &&
        said.some(
          (theirs, j) =>
            i !== j && theirs.some((o) => sameEnd(o.question, c.question)) && !theirs.some((o) => same(o, c)),
        ),
    ),
  );
  return disputed.filter((c, i) => disputed.findIndex((d) => same(d, c)) === i);
}

/** Things said that do not go together: one of them holds, or none. */
async function askWhich(
  workspace: Workspace,
  prompter: Prompter,
  heads: readonly string[],
  candidates: readonly Candidate[],
  audience: Audience,
): Promise<CaseAnswer | undefined> {
  const { value, sure } = await askPaged(prompter, {
    head: heads.join(' and '),
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
  const meaning = ({ question, answer }: Candidate): string =>
    readingWords(questionOf(workspace, question), answer, audience);
  while (candidates.length > 0) {
    const first = confirmed.length === 0;
    const head = `"${reading.text}"${reading.negated ? ' (heard as a no)' : ''}`;
    const { value, sure }: { value: string; sure: Sure } = await prompter.ask({
      head,
      stays: `${head} means:`,
      message: first ? 'Did you mean this?' : 'And this too?',
      choices: candidates.map((c, i) => ({ value: String(i), name: meaning(c) })),
      actions: [
        ...(candidates.length > 1 && areCompatible(workspace, candidates)
          ? [
              {
                key: 'a',
                value: 'all',
                name: 'all of these',
                answers: true,
                stays: candidates.map(meaning).join('; '),
              },
            ]
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

/** One reading of a rider's words, shown back: which of its meanings are meant, and which are not. */
import { isAboutEnd } from '../../../rulebase/no-complaint.ts';
import type { CaseAnswer } from '../../../casework/case.ts';
import type { Action, Prompter } from '../../../console/prompter.ts';
import type { Audience } from '../../../report/evidence-words.ts';
import { readingWords } from '../../../report/reading-words.ts';
import { sameEnd } from '../../../words/clash.ts';
import type { Candidate, Reading } from '../../../words/matcher.ts';
import type { Workspace } from '../../../workspace/workspace.ts';
import { askPaged } from '../ask-paged.ts';
import { questionOf } from '../answer-texts.ts';

/** What of the words was gone through so far. */
export interface Gathered {
  /** topics of what was confirmed, or is to be found out: they lead the questions */
  readonly topics: readonly string[];
  readonly answers: readonly CaseAnswer[];
  /** offered, and not meant */
  readonly declined: readonly Pick<Candidate, 'question' | 'answer'>[];
  /** of which nothing was meant */
  readonly dropped: readonly Reading[];
}

export interface Confirming {
  readonly workspace: Workspace;
  readonly prompter: Prompter;
  readonly audience: Audience;
  /** all that was read out of the words */
  readonly readings: readonly Reading[];
  /** says a line that needs no answer */
  readonly tell: (text: string) => void;
  /** takes down what is known already, should the asking be left in the middle of a reading */
  readonly keep: (gathered: Gathered) => void;
}

const BACK: Action = { key: 'b', value: 'back', name: 'back' };

/**
 * @returns what is known after it, and whether anything had to be asked for it; `back` where the first of its questions
 *   is gone back from
 */
export async function confirmReading(
  reading: Reading,
  before: Gathered,
  { workspace, prompter, audience, readings, tell, keep }: Confirming,
): Promise<{ readonly gathered: Gathered; readonly asked: boolean } | 'back'> {
  const unasked = (gathered: Gathered) => ({ gathered, asked: false }) as const;
  // What is denied bothers nobody: it neither leads the questions nor means opposite things.
  if (reading.negated && (reading.ambiguous || reading.candidates.length === 0)) {
    tell(`"${reading.text}": heard as a no.`);
    return unasked(before);
  }
  const topics = [...reading.separates, ...reading.candidates.map((c) => c.question)].flatMap((id) => {
    const index = workspace.model.questionIndex.get(id);
    return index === undefined ? [] : [workspace.rules.questions[index]!.topic];
  });
  const led = (g: Gathered): Gathered => ({ ...g, topics: [...new Set([...g.topics, ...topics])] });
  if (reading.ambiguous)
    return await tellApart(reading, led(before), readings, { workspace, prompter, audience });
  if (reading.negated && before.dropped.some((one) => holds(one, reading))) return unasked(before);
  const left = (g: Gathered, r: Reading): Candidate[] =>
    r.candidates.filter(
      (c) => !g.answers.some((a) => sameEnd(a.question, c.question)) && !g.declined.some((d) => same(d, c)),
    );
  const against = readings.filter((r) => r !== reading && reading.clashes?.includes(r.text) === true);
  const disputed = inDispute([reading, ...against].map((r) => left(before, r)));
  for (;;) {
    let gathered = before;
    if (disputed.length > 0) {
      const heads = [...new Set([reading, ...against].map((r) => `"${r.text}"`))];
      const chosen = await askWhich(workspace, prompter, heads, disputed, audience);
      if (chosen === 'back') return chosen;
      gathered = {
        ...gathered,
        answers: [...gathered.answers, ...(chosen === undefined ? [] : [chosen])],
        declined: [
          ...gathered.declined,
          ...disputed.filter((c) => c.question !== chosen?.question || c.answer !== chosen.answer),
        ],
      };
      keep(gathered);
    }
    const candidates = signsOf(left(gathered, reading), readings, workspace);
    if (candidates.length === 0) {
      const told = reading.candidates.some((c) =>
        gathered.answers.some((a) => sameEnd(a.question, c.question)),
      );
      return { gathered: told ? led(gathered) : gathered, asked: disputed.length > 0 };
    }
    const meant = await offer({ ...reading, candidates }, { workspace, prompter, audience }, (answers) =>
      keep(led({ ...gathered, answers: [...gathered.answers, ...answers] })),
    );
    if (meant === 'back') {
      keep(before);
      if (disputed.length > 0) continue;
      return meant;
    }
    const all = {
      ...gathered,
      answers: [...gathered.answers, ...meant],
      declined: [
        ...gathered.declined,
        ...candidates.filter((c) => !meant.some((m) => m.question === c.question)),
      ],
    };
    // What was not meant does not lead the questions either.
    return {
      gathered: meant.length > 0 ? led(all) : { ...all, dropped: [...all.dropped, reading] },
      asked: true,
    };
  }
}

/** Words with several meanings: the sign that is meant is picked, or what is asked next finds it out. */
async function tellApart(
  reading: Reading,
  before: Gathered,
  readings: readonly Reading[],
  { workspace, prompter, audience }: Pick<Confirming, 'workspace' | 'prompter' | 'audience'>,
): Promise<{ readonly gathered: Gathered; readonly asked: boolean } | 'back'> {
  const { text, couldShow = [] } = reading;
  const known = (c: Candidate): boolean => before.answers.some((a) => sameEnd(a.question, c.question));
  const declined = (c: Candidate): boolean => before.declined.some((d) => same(d, c));
  // What may be loose is looked at on the bike, right after the words.
  const looked = (c: Candidate): boolean => questionOf(workspace, c.question).safety;
  const open = couldShow.filter((c) => !known(c) && !declined(c) && !looked(c));
  // One that was told already settles what was meant, and so does what the same words were said to mean.
  const meant = readings.some((r) => r !== reading && holds(r, reading) && r.candidates.some(known));
  if (meant || couldShow.some(known) || open.length === 0) return { gathered: before, asked: false };
  const { value, sure } = await askPaged(prompter, {
    head: `"${text}" can mean different things.`,
    stays: `"${text}" means:`,
    message: 'Which is closest?',
    choices: open.map(({ question, answer }, i) => ({
      value: String(i),
      name: readingWords(questionOf(workspace, question), answer, audience),
    })),
    actions: [{ key: 'n', value: 'none', name: 'none of these', answers: true }, BACK],
    sure: 'sure',
    terse: audience === 'mechanic',
  });
  if (value === BACK.value) return 'back';
  const chosen = open[Number(value)];
  if (chosen === undefined)
    return { gathered: { ...before, declined: [...before.declined, ...open] }, asked: true };
  const { question, answer } = chosen;
  return { gathered: { ...before, answers: [...before.answers, { question, answer, sure }] }, asked: true };
}

/** What is wrong at an end says which end it is; that alone is offered only where nothing else says it. */
function signsOf(
  open: readonly Candidate[],
  readings: readonly Reading[],
  workspace: Workspace,
): readonly Candidate[] {
  const isEnd = (c: Candidate): boolean => isAboutEnd(questionOf(workspace, c.question));
  const told = (c: Candidate): boolean =>
    readings.some((r) => r.candidates.some((x) => questionOf(workspace, x.question).end === c.answer));
  const signs = open.filter((c) => !isEnd(c));
  return signs.length > 0 ? signs : open.filter((c) => !isEnd(c) || !told(c));
}

function same(a: Pick<Candidate, 'question' | 'answer'>, b: Candidate): boolean {
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
): Promise<CaseAnswer | 'back' | undefined> {
  const { value, sure } = await askPaged(prompter, {
    head: heads.join(' and '),
    message: "These don't go together. Which is it?",
    choices: candidates.map(({ question, answer }, i) => ({
      value: String(i),
      name: readingWords(questionOf(workspace, question), answer, audience),
    })),
    actions: [{ key: 'n', value: 'none', name: 'neither', answers: true }, BACK],
    sure: 'sure',
    deliberate: candidates.some(({ question }) => questionOf(workspace, question).safety),
    terse: audience === 'mechanic',
  });
  if (value === BACK.value) return 'back';
  const chosen = candidates[Number(value)];
  return chosen === undefined ? undefined : { question: chosen.question, answer: chosen.answer, sure };
}

/**
 * Shows what a reading could mean, and what it could mean besides, until no more of it is meant.
 * @param keep told after every meaning what is confirmed so far
 */
async function offer(
  reading: Reading,
  { workspace, prompter, audience }: Pick<Confirming, 'workspace' | 'prompter' | 'audience'>,
  keep: (answers: readonly CaseAnswer[]) => void,
): Promise<readonly CaseAnswer[] | 'back'> {
  const confirmed: CaseAnswer[] = [];
  const meaning = ({ question, answer }: Candidate): string =>
    readingWords(questionOf(workspace, question), answer, audience);
  for (;;) {
    const candidates = reading.candidates.filter((c) => !confirmed.some((a) => a.question === c.question));
    if (candidates.length === 0) return confirmed;
    const first = confirmed.length === 0;
    const head = `"${reading.text}"${reading.negated ? ' (heard as a no)' : ''}`;
    const { value, sure } = await prompter.ask({
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
        BACK,
      ],
      sure: 'sure',
      deliberate: candidates.some(({ question }) => questionOf(workspace, question).safety),
      terse: audience === 'mechanic',
    });
    if (value === BACK.value) {
      if (confirmed.pop() === undefined) return 'back';
      keep(confirmed);
      continue;
    }
    if (value === 'all')
      return [...confirmed, ...candidates.map(({ question, answer }) => ({ question, answer, sure }))];
    const candidate = candidates[Number(value)];
    if (candidate === undefined) return confirmed;
    confirmed.push({ question: candidate.question, answer: candidate.answer, sure });
    keep(confirmed);
  }
}

/** Whether all of them can hold at once: no question is answered twice, but one that takes several answers. */
function areCompatible(workspace: Workspace, candidates: Reading['candidates']): boolean {
  return candidates.every(
    ({ question }, i) =>
      questionOf(workspace, question).list === true ||
      candidates.findIndex((c) => c.question === question) === i,
  );
}

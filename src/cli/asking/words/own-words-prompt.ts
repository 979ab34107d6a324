/** What bothers the rider, typed in own words: read, shown back, and counted only where it is confirmed. */
import type { PreparedBike } from '../../../advice/prepared-bike.ts';
import type { Tried } from '../../../casework/case.ts';
import { Left, type Prompter } from '../../../console/prompter.ts';
import type { Event } from '../../../interview/events.ts';
import type { Interview } from '../../../interview/state.ts';
import type { Audience } from '../../../report/evidence-words.ts';
import { fit } from '../../../report/style.ts';
import { withoutEnd } from '../../../rulebase/compiled.ts';
import { quotedList } from '../../../report/quoted-list.ts';
import { paragraph } from '../../../report/wrap.ts';
import type { Reading } from '../../../words/matcher.ts';
import type { LastInterview } from '../../../workspace/cases/last-interview.ts';
import type { Workspace } from '../../../workspace/workspace.ts';
import { questionOf } from '../answer-texts.ts';
import { askBother } from './bother-prompt.ts';
import { confirmReading, type Confirming, type Gathered } from './confirm-reading.ts';
import { confirmFigure, figuresIn } from './confirm-figure.ts';
import { confirmTried } from './confirm-tried.ts';
import { notMeantOf } from './not-meant.ts';

/** Readings offered at most; a rider who said more is asked the rest anyway. */
const MOST_OFFERED = 6;

/** What was said, and what of it was gone through before the asking was left. */
export type SaidSoFar = { readonly said: string } & Partial<
  Pick<Interview, 'steps' | 'topics' | 'notMeant' | 'tried'>
>;

/** All that was gone through, changes that were tried too. */
interface All extends Gathered {
  readonly tried: readonly Tried[];
  /** words of a change → whether it was put back: of one change with two results that is asked once */
  readonly backs: ReadonlyMap<string, Tried['putBack']>;
}

/**
 * Reads what was said back, and takes what of it is confirmed.
 * @param so what was confirmed and declined earlier is not asked again
 * @param send takes what is known: the words at once, the rest at the end, or when the asking is left
 * @returns whether the rider goes back to before the words
 */
export async function hearOwnWords(
  workspace: Workspace,
  prompter: Prompter,
  audience: Audience,
  so: SaidSoFar,
  send: (event: Event) => Promise<void>,
  bench: PreparedBike,
): Promise<'back' | undefined> {
  const [{ buildHearing }, { unheard }] = await Promise.all([
    import('../../../words/hearing.ts'),
    import('../../../words/unheard.ts'),
  ]);
  const tell = (text: string): void => {
    const { style } = prompter;
    const lines = paragraph(text, style.width - 1, '  ');
    prompter.say(`${fit(lines, style)}\n`);
  };
  const { said } = so;
  const heard = buildHearing(workspace.rules, await workspace.words())(said);
  const { readings, tried, wishes } = heard;
  let all: All = begun(so);
  await sendAll(all, said, send, true);
  const figures = await figuresIn(said, workspace.rules, bench);
  const rest = unheard(said, heard, workspace.rules).filter(
    (part) => !figures.some(({ text }) => part.includes(text) || text.includes(part)),
  );
  if (wishes.length > 0)
    tell(
      `Asked: ${quotedList([...new Set(wishes.map(({ asked }) => asked))])}. I'll answer that at the end.`,
    );
  if (readings.length + tried.length + wishes.length + figures.length === 0)
    tell("I don't know these words. I'll find out by asking.");
  else if (rest.length > 0) tell(`Not understood: ${quotedList(rest)}. I'll find out by asking.`);
  const offered = readings.slice(0, MOST_OFFERED);
  const confirming: Confirming = {
    workspace,
    prompter,
    audience,
    readings,
    tell,
    keep: (gathered) => void (all = { ...all, ...gathered }),
  };
  const bike = { sheet: bench.sheet, rules: workspace.rules };
  /** one to ask after the other; each says what is known after it, whether it asked, or that the rider goes back */
  const items: ((before: All) => Promise<{ all: All; asked: boolean } | 'back'>)[] = [
    ...figures.map((figure) => async (before: All) => {
      // It was confirmed before the asking was left, or another figure of the same end was.
      if (before.answers.some((one) => one.question === figure.question.id && one.measured !== undefined))
        return { all: before, asked: false };
      const answer = await confirmFigure(prompter, figure, bench);
      if (answer === 'back') return answer;
      const rest = before.answers.filter(({ question }) => question !== answer?.question);
      return { all: answer === undefined ? before : { ...before, answers: [...rest, answer] }, asked: true };
    }),
    ...offered.map((reading) => async (before: All) => {
      if (isMeasured(reading, before.answers)) return { all: before, asked: false };
      const went = await confirmReading(reading, before, confirming);
      return went === 'back' ? went : { all: { ...before, ...went.gathered }, asked: went.asked };
    }),
    ...tried.map((reading) => async (before: All) => {
      const one = await confirmTried(prompter, reading, bike, before.backs.get(reading.text));
      if (one === 'back') return one;
      if (one === undefined) return { all: before, asked: true };
      const backs = new Map(before.backs).set(reading.text, one.putBack);
      return { all: { ...before, tried: [...before.tried, one], backs }, asked: true };
    }),
    async (before: All) => {
      const gathered = await askBother(before, rest.length === 0, { workspace, prompter, audience });
      return gathered === 'back' ? gathered : { all: { ...before, ...gathered }, asked: gathered !== before };
    },
  ];
  /** where something was asked, and what was known before it */
  const trail: { readonly at: number; readonly before: All }[] = [];
  try {
    for (let at = 0; at < items.length; at++) {
      const went = await items[at]!(all);
      if (went === 'back') {
        const last = trail.pop();
        if (last === undefined) return went;
        all = last.before;
        at = last.at - 1;
        continue;
      }
      if (went.asked) trail.push({ at, before: all });
      ({ all } = went);
    }
  } catch (error) {
    if (error instanceof Left) await sendAll(all, said, send, true);
    throw error;
  }
  await sendAll(all, said, send, false);
  return undefined;
}

/** Whether the number itself was told: then the words beside it tell nothing more. */
function isMeasured({ candidates }: Reading, answers: All['answers']): boolean {
  const told = new Set(answers.flatMap((a) => (a.measured === undefined ? [] : [withoutEnd(a.question)])));
  return candidates.length > 0 && candidates.every(({ question }) => told.has(withoutEnd(question)));
}

function begun({ steps = [], topics = [], notMeant = {}, tried = [] }: SaidSoFar): All {
  const declined = Object.entries(notMeant).flatMap(([question, answers]) =>
    answers.map((answer) => ({ question, answer })),
  );
  return { topics, answers: steps, declined, dropped: [], tried, backs: new Map() };
}

/** @param hearing not all of the words was gone through yet */
async function sendAll(
  { topics, answers, declined, tried }: All,
  said: string,
  send: (event: Event) => Promise<void>,
  hearing: boolean,
): Promise<void> {
  const notMeant = notMeantOf(declined, answers);
  await send({
    type: 'open',
    topics,
    said,
    ...(notMeant === undefined ? {} : { notMeant }),
    ...(hearing ? { hearing } : {}),
  });
  if (answers.length > 0) await send({ type: 'confirm', answers });
  if (tried.length > 0) await send({ type: 'tried', tried });
}

/** Parts of what bothered before that can be left alone when the rest is cured; none where it was one thing. */
export async function partsOf(workspace: Workspace, last: LastInterview): Promise<readonly string[]> {
  const texts = [...new Set((await confirmedIn(workspace, last)).map(({ text }) => text))];
  const parts = texts.filter((text) => texts.every((other) => other === text || !other.includes(text)));
  return parts.length < 2 ? [] : parts.slice(0, MOST_PARTS);
}

/** More would push the short list off its page. */
const MOST_PARTS = 2;

/** Of what was said before, the readings of which an answer was confirmed. */
async function confirmedIn(
  workspace: Workspace,
  { said, answers }: LastInterview,
): Promise<readonly Reading[]> {
  if (said === undefined) return [];
  const { buildHearing } = await import('../../../words/hearing.ts');
  const { readings } = buildHearing(workspace.rules, await workspace.words())(said);
  return readings.filter(
    ({ negated, candidates }) =>
      !negated &&
      candidates.some((c) => answers.some((a) => a.question === c.question && a.answer === c.answer)),
  );
}

/**
 * What bothered in the interview before bothers still: what was confirmed then is confirmed.
 * @param only the part of it that is left, in its words; absent: all of it
 */
export async function hearAgain(workspace: Workspace, last: LastInterview, only?: string): Promise<Event[]> {
  const { said, about, answers } = last;
  if (said === undefined) {
    const { openings } = workspace.rules;
    const opening = openings.find(({ topics }) => topics.join(' ') === about.join(' '));
    const picked = answers.filter(({ question, answer }) => opening?.answers[question] === answer);
    return [
      { type: 'open', topics: about },
      ...(picked.length === 0 ? [] : [{ type: 'confirm' as const, answers: picked }]),
    ];
  }
  const readings = (await confirmedIn(workspace, last)).filter(
    ({ text }) => only === undefined || only.includes(text),
  );
  const meant = readings.flatMap(({ candidates }) => candidates);
  const confirmed = answers.filter((a) =>
    meant.some(({ question, answer }) => question === a.question && answer === a.answer),
  );
  const topics =
    only === undefined
      ? about
      : [...new Set(confirmed.map(({ question }) => questionOf(workspace, question).topic))];
  return [
    { type: 'open', topics, said: only ?? said },
    ...(confirmed.length === 0 ? [] : [{ type: 'confirm' as const, answers: confirmed }]),
  ];
}

/** One interview as it is held: its state, kept after every event, and the order of the prompts. */
import type { PreparedBike } from '../../advice/prepared-bike.ts';
import { saidAfter } from '../../bike/form/said.ts';
import type { Prompter } from '../../console/prompter.ts';
import type { Effect, Event, Transition } from '../../interview/events.ts';
import { step } from '../../interview/session.ts';
import { toCase, type Interview } from '../../interview/state.ts';
import type { Audience } from '../../report/evidence-words.ts';
import { checkNamed } from '../../report/verdict/check-named.ts';
import { smallerStep } from '../../report/verdict/verdict-lines.ts';
import type { Workspace } from '../../workspace/workspace.ts';
import { readDeed } from '../../bike/deed.ts';
import { changeWords } from '../../report/bike/change-words.ts';
import {
  askAfterwards,
  leaves,
  waysOn,
  type Afterwards,
  type Leaving,
  type Possible,
} from './end/ask-afterwards.ts';
import { askCameBack, askWent, type Went } from './end/ridden-prompt.ts';
import { changeOf } from '../../report/result/result.ts';
import type { Change } from '../../bike/change.ts';
import { askQuestion } from './interview-prompts.ts';
import type { ToldRider } from './number-prompt.ts';
import { endScreen, resultOf, wholeReport } from './interview-report.ts';
import type { CaseData, Autosave } from '../../workspace/cases/autosave.ts';
import { leftOfComplaints, type AskedFor } from './left-of-complaints.ts';
import { askOpening } from './opening-prompt.ts';
import { askStill } from './still-prompt.ts';
import type { LastInterview } from '../../workspace/cases/last-interview.ts';
import { showPages } from './show-read.ts';
import { askHas } from './has-prompt.ts';
import { askTried } from './tried-prompt.ts';
import {
  couldNot,
  changeOpen,
  triedOpen,
  isSafety,
  asksOfKnob,
  hasOpen,
  canTry,
  readsOf,
  rideable,
  knobFirst,
  moreToAsk,
} from './what-is-open.ts';
import type { Case } from '../../casework/case.ts';
import { answersByMass } from '../../casework/reading/answers-by-mass.ts';
import { withToldSprings } from '../../casework/told-spring.ts';

type Because = Extract<Effect, { do: 'report' }>['because'];

export interface Session {
  readonly state: Interview;
  readonly bench: PreparedBike;
  /** why the asking is over; undefined while it goes on */
  readonly because: Because | undefined;
  send(event: Event): Promise<void>;
  /** what the bike has, where there is no sheet of it */
  equip(has: NonNullable<Case['has']>): Promise<void>;
  /** @param durable whether to wait until it is on the disk */
  keep(durable: boolean): Promise<void>;
}

export interface SessionSetup {
  readonly workspace: Workspace;
  readonly bench: PreparedBike;
  readonly begun: Transition;
  readonly autosave: Autosave;
  /** the case as it stands in a file of that folder */
  readonly fileData: (state: Interview, folder: string) => CaseData;
}

export function openSession({ workspace, bench: given, begun, autosave, fileData }: SessionSetup): Session {
  let [state, effects] = begun;
  let bench = given;
  const keep = async (durable: boolean): Promise<void> => {
    // An interview without any answer leaves no file, unless it has one already.
    if (state.steps.length > 0 || state.said !== undefined || autosave.path !== undefined)
      await autosave.keep((folder) => fileData(state, folder), durable);
  };
  /** The bike as it was told of: what was answered and tried may say which spring there is. */
  const fitted = async (): Promise<PreparedBike> => {
    const said = withToldSprings(workspace.rules, toCase(state));
    return said === undefined ? given : await workspace.bench(undefined, said);
  };
  const send = async (event: Event): Promise<void> => {
    const before = state;
    [state, effects] = step(workspace.model, bench, before, event);
    const fit = given.sheet === undefined ? await fitted() : bench;
    const read = await workspace.measured(fit, { answers: state.steps, results: state.results });
    if (read !== bench) {
      bench = read;
      [state, effects] = step(workspace.model, bench, before, event);
    }
    if (effects.some((e) => e.do === 'save')) await keep(false);
  };
  return {
    get state() {
      return state;
    },
    get because() {
      return effects.find((e): e is Extract<Effect, { do: 'report' }> => e.do === 'report')?.because;
    },
    get bench() {
      return bench;
    },
    send,
    async equip(has) {
      await send({ type: 'has', has });
    },
    keep,
  };
}

/** What the user wants after an interview. */
export interface AtEnd {
  readonly wanted: Leaving;
  /** the smaller step that is left to try; on a bike that was told of without a sheet the knob that comes first */
  readonly change?: string | undefined;
  /** what was advised was ridden on a bike with a log, which is told of it */
  readonly ridden?: Ridden | undefined;
}

/** A step, and how it went. */
export interface Ridden extends Went {
  readonly change: Change;
}

/** Asks until the interview is over. */
export async function hold(
  session: Session,
  workspace: Workspace,
  prompter: Prompter,
  audience: Audience,
  before: {
    readonly last?: LastInterview | undefined;
    readonly now: Date;
    /** it was begun before, and left before its end */
    readonly brokenOff: boolean;
    /** the log of the bike is read and written */
    readonly log: boolean;
    /** of a step that was ridden a moment ago: nobody comes back to it */
    readonly goesOn: boolean;
  },
): Promise<AtEnd> {
  const { last } = before;
  // What the words told of is one change; whether there were others is asked like of anybody.
  let heard = false;
  const tells = (): boolean => (session.state.tried ?? []).length > 0;
  const open = async (): Promise<void> => {
    // What was confirmed of words goes with them: they are said anew.
    const { length: steps } = session.state.steps;
    if (steps > 0) await session.send({ type: 'back', steps });
    const { said } = session.state;
    await askOpening(
      workspace,
      prompter,
      audience,
      { bench: session.bench, last, before: said },
      session.send,
    );
    heard = tells();
    await still();
  };
  const still = async (): Promise<void> => {
    const { state, bench } = session;
    const events = await askStill(workspace, prompter, audience, state, { ...before, bench });
    if (events === 'back') return await open();
    for (const event of events) await session.send(event);
  };
  /** Words that were left in the middle are gone on with; what was said and gone through is not asked again. */
  const begin = async (): Promise<void> => {
    const { said, hearing } = session.state;
    if (hearing !== true || said === undefined) return said === undefined ? await open() : undefined;
    const { hearOwnWords } = await import('./words/own-words-prompt.ts');
    const so = { ...session.state, said };
    if ((await hearOwnWords(workspace, prompter, audience, so, session.send, session.bench)) === 'back')
      await open();
    else {
      heard = tells();
      await still();
    }
  };
  const fresh = session.state.steps.length === 0 || session.state.hearing === true;
  let offered = false;
  let changed = false;
  const asked: AskedFor[] = [];
  const rider: ToldRider = {};
  let isWeighed = false;
  /** A mass that was told for a gauge says whether stock settings suit, once. */
  const weighed = async (): Promise<void> => {
    if (isWeighed || rider.mass === undefined) return;
    isWeighed = true;
    const known = new Set(session.state.steps.map(({ question }) => question));
    const answers = answersByMass(workspace.rules.questions, rider.mass);
    const open = answers.filter(({ question }) => !known.has(question));
    if (open.length > 0) await session.send({ type: 'confirm', answers: open });
  };
  let rode = false;
  /** Whoever comes back to an interview that was over has ridden what it advised, or made the check that it named. */
  const named = async (): Promise<void> => {
    const { state, because, bench } = session;
    if (because === 'danger' || (because === undefined && state.reopened === undefined)) return;
    const result = await resultOf(workspace, bench, state);
    // What was left open is asked again only of who has not ridden it yet.
    const step = because === undefined && !before.goesOn ? rideable(result, bench, before.log) : undefined;
    if (step !== undefined) {
      rode = await askCameBack(prompter, audience === 'rider' ? step.plain : step.do, state.reopened!.length);
      if (rode) return await session.send({ type: 'finish' });
    }
    const question = checkNamed(result, { rules: bench.rules, audience }, readsOf(result, bench));
    if (question !== undefined) await session.send({ type: 'ask', question });
  };
  await (fresh ? begin() : named());
  for (;;) {
    const { state, because, bench } = session;
    // A case from elsewhere, or one that was finished, says what it has to say.
    if (because === undefined && (fresh || before.brokenOff) && triedOpen(state, bench, heard)) {
      const { tried: told = [] } = state;
      const tried = await askTried(prompter, { sheet: bench.sheet, rules: bench.rules }, { before: told });
      if (tried !== undefined) heard = false;
      await session.send(
        tried === undefined ? { type: 'back' } : { type: 'tried', tried: [...told, ...tried] },
      );
      continue;
    }
    if (because === undefined && !changed && fresh && changeOpen(state, bench)) {
      const tried = await askTried(
        prompter,
        { sheet: bench.sheet, rules: bench.rules },
        { before: state.tried ?? [], since: true },
      );
      changed = tried !== undefined;
      if (tried === undefined) await session.send({ type: 'back' });
      else if (tried.length > 0)
        await session.send({ type: 'tried', tried: [...(state.tried ?? []), ...tried] });
      continue;
    }
    if (because === undefined && !offered && asksOfKnob(state, bench)) {
      offered = true;
      const has = await askHas(prompter, bench.rules.adjusters, state.tried);
      if (has !== undefined) await session.equip(has);
      continue;
    }
    if (because === undefined) {
      const event = await askQuestion({ workspace, bench, state, prompter, audience, rider });
      const safe = state.steps.some(({ question }) => isSafety(bench, question));
      if (event.type === 'back' && !(fresh ? safe : state.steps.length > 0)) await open();
      else await session.send(event);
      await weighed();
      continue;
    }
    const result = await resultOf(workspace, bench, state);
    // Whoever ends it wants the verdict, and no other question.
    if (!offered && because !== 'finished' && hasOpen(state, bench, result)) {
      offered = true;
      const has = await askHas(prompter, bench.rules.adjusters, state.tried);
      if (has !== undefined) {
        await session.equip(has);
        continue;
      }
    }
    const left = leftOfComplaints(result, because, asked, bench.rules.numbers.asking['of-complaint']);
    if (left !== undefined) {
      asked.push(left);
      await session.send({ type: 'ask', question: left.question });
      continue;
    }
    for (;;) {
      const less = bench.sheet === undefined ? undefined : smallerStep(result);
      const reads = readsOf(result, bench);
      const step = rideable(result, bench, before.log);
      const { asking } = bench.rules.numbers;
      const possible: Possible = {
        trial: canTry(result, bench),
        ridden: step !== undefined,
        less:
          less === undefined ? undefined : changeWords(readDeed(less, bench.sheet?.settings), bench.sheet),
        measured: reads === undefined ? undefined : couldNot(state, reads) ? 'later' : 'now',
        more: because === 'danger' ? 0 : Math.min(asking['at-most-more'], moreToAsk(workspace, bench, state)),
        mayMove: result.stop === null,
        back: state.steps.length > 0,
        sheet: state.has !== undefined && bench.sheet === undefined,
        sheetTrial: knobFirst(result, state, bench) !== undefined,
      };
      const { length } = waysOn(possible);
      const told = rode && step !== undefined;
      rode = false;
      if (!told)
        prompter.say(`\n${endScreen(result, bench, prompter.style, audience, prompter.rows, length)}`);
      const event: Afterwards = told ? { type: 'ridden' } : await askAfterwards(prompter, possible);
      if (leaves(event)) return { wanted: event.type, change: less ?? knobFirst(result, state, bench) };
      if (event.type === 'more') {
        await showPages(prompter, await wholeReport(result, workspace, bench, prompter.style, audience));
        continue;
      }
      if (event.type === 'ridden') {
        const went = await askWent(prompter, audience === 'rider' ? step!.plain : step!.do);
        if (went === undefined) continue;
        const change = changeOf(step!)!;
        if (bench.sheet !== undefined) return { wanted: 'end', ridden: { ...went, change } };
        const { outcome, left } = went;
        const deed = { changes: [change] };
        await session.send({
          type: 'rode',
          result: { change: deed, outcome, kept: outcome === 'better' },
          left,
        });
        if (outcome === 'better' && state.has !== undefined)
          await session.equip(saidAfter(state.has, change, bench.rules.adjusters));
        if (outcome === 'better' && !left) return { wanted: 'end' };
        break;
      }
      await session.send(event.type === 'measured' ? { type: 'ask', question: reads! } : event);
      break;
    }
  }
}

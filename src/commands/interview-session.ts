/** One interview as it is held: its state, kept after every event, and the order of the prompts. */
import type { Bench } from '../advice/bench.ts';
import type { Prompter } from '../console/prompter.ts';
import { look, step, type Effect, type Event, type Transition } from '../interview/session.ts';
import type { Interview } from '../interview/state.ts';
import type { Desk } from './desk.ts';
import { askAfterwards } from './ask-afterwards.ts';
import { askQuestion, type Audience } from './interview-prompts.ts';
import { finalReport } from './interview-report.ts';
import type { CaseData, Keeper } from './keeper.ts';
import { askOpening } from './opening-prompt.ts';

type Because = Extract<Effect, { do: 'report' }>['because'];

export interface Session {
  readonly state: Interview;
  /** why the asking is over; undefined while it goes on */
  readonly because: Because | undefined;
  send(event: Event): Promise<void>;
  /** @param durable whether to wait until it is on the disk */
  keep(durable: boolean): Promise<void>;
}

export interface SessionSetup {
  readonly desk: Desk;
  readonly bench: Bench;
  readonly begun: Transition;
  readonly keeper: Keeper;
  /** the case as it stands in a file of that folder */
  readonly fileData: (state: Interview, folder: string) => CaseData;
}

export function openSession({ desk, bench, begun, keeper, fileData }: SessionSetup): Session {
  let [state, effects] = begun;
  const keep = async (durable: boolean): Promise<void> => {
    // An interview without any answer leaves no file, unless it has one already.
    if (state.steps.length > 0 || state.said !== undefined || keeper.path !== undefined)
      await keeper.keep((folder) => fileData(state, folder), durable);
  };
  return {
    get state() {
      return state;
    },
    get because() {
      return effects.find((e): e is Extract<Effect, { do: 'report' }> => e.do === 'report')?.because;
    },
    async send(event) {
      [state, effects] = step(desk.model, bench, state, event);
      if (effects.some((e) => e.do === 'save')) await keep(false);
    },
    keep,
  };
}

/** Asks until the interview is over. */
export async function hold(
  session: Session,
  desk: Desk,
  bench: Bench,
  prompter: Prompter,
  audience: Audience,
): Promise<void> {
  const open = async (): Promise<void> => {
    for (const event of await askOpening(desk, prompter, audience)) await session.send(event);
  };
  if (session.state.steps.length === 0) await open();
  for (;;) {
    const { state, because } = session;
    if (because === undefined) {
      const event = await askQuestion(desk, bench, state, prompter, audience);
      if (event.type === 'back' && state.steps.length === 0) await open();
      else await session.send(event);
      continue;
    }
    prompter.say(await finalReport(desk, bench, state, prompter.style));
    if (because === 'finished') return;
    const event = await askAfterwards(prompter, {
      keepAsking: because !== 'danger' && moreToAsk(desk, bench, state),
      back: state.steps.length > 0,
    });
    if (event === undefined) return;
    await session.send(event);
  }
}

/** Whether going on past enough would find anything to ask. */
function moreToAsk(desk: Desk, bench: Bench, state: Interview): boolean {
  const { stop, open } = look(desk.model, bench, { ...state, keepAsking: true, ended: null });
  return stop === undefined && open.length > 0;
}

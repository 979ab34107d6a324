/** "What bothers you most?": in own words at once, from the short list, or straight to the questions. */
import type { PreparedBike } from '../../advice/prepared-bike.ts';
import type { Chosen, Prompter } from '../../console/prompter.ts';
import type { Event } from '../../interview/events.ts';
import type { Audience } from '../../report/evidence-words.ts';
import { MOST_NAME, printable } from '../../report/foreign-text.ts';
import type { LastInterview } from '../../workspace/cases/last-interview.ts';
import { paragraph } from '../../report/wrap.ts';
import { askPaged } from './ask-paged.ts';
import { showRead } from './show-read.ts';
import type { Workspace } from '../../workspace/workspace.ts';

/** Openings before the way past them, so that it stands on the first page. */
const ON_FIRST_PAGE = 7;

/** What `?` says here. */
const HOW =
  'Say what the bike does, where, and when: "the rear kicks on square edges", or "my hands go numb on long descents". Two things at once are fine. I read it back before it counts. Or type a number and press Return.';

const ALONE = 'These questions are for a mechanic. Riding alone? Leave with Ctrl-C and add --for rider.';

/**
 * @param bench of the bike: what was tried on it is named as its sheet names it, and what was measured is held against its targets
 * @param last the interview about this bike before: what bothered then is offered first
 * @param before the words that were said here, where they are gone back to
 * @param send takes what was said, as events
 */
export async function askOpening(
  workspace: Workspace,
  prompter: Prompter,
  audience: Audience,
  {
    bench,
    last,
    before,
  }: {
    readonly bench: PreparedBike;
    readonly last?: LastInterview | undefined;
    readonly before?: string | undefined;
  },
  send: (event: Event) => Promise<void>,
): Promise<void> {
  if (workspace.rules.openings.length === 0) return;
  let words = before;
  for (;;) {
    const events = await askOnce(workspace, prompter, audience, { last, before: words });
    if (Array.isArray(events)) {
      for (const event of events) await send(event);
      return;
    }
    const { hearOwnWords } = await import('./words/own-words-prompt.ts');
    if ((await hearOwnWords(workspace, prompter, audience, events, send, bench)) !== 'back') return;
    words = events.said;
  }
}

/** @returns what was picked, as events, or the words that were typed */
async function askOnce(
  workspace: Workspace,
  prompter: Prompter,
  audience: Audience,
  { last, before }: { readonly last: LastInterview | undefined; readonly before: string | undefined },
): Promise<Event[] | { readonly said: string }> {
  const { openings } = workspace.rules;
  const message = audience === 'rider' ? 'What bothers you most?' : 'What bothers the rider most?';
  const listed = openings.map((o) => ({
    value: `open:${o.id}`,
    name: audience === 'rider' ? o.plain : o.say,
  }));
  const lastly = beforeWords(openings, last, audience);
  // What it takes to read words is only loaded where there are any.
  const words = last === undefined ? undefined : await import('./words/own-words-prompt.ts');
  const parts = (await words?.partsOf(workspace, last!)) ?? [];
  const still = [
    ...(lastly === undefined ? [] : [{ value: 'still', name: `still ${lastly}` }]),
    // Half of it may be cured.
    ...parts.map((part) => ({ value: `left:${part}`, name: `only "${printable(part, MOST_NAME)}" is left` })),
  ];
  const ask = (): Promise<Chosen> =>
    askPaged(prompter, {
      head:
        before === undefined
          ? `Type ${audience === 'rider' ? 'it in your own' : "the rider's"} words, or pick a number. Saved as you go; Ctrl-C leaves.`
          : 'Change the words and press Return, or clear them (Ctrl-U) and pick a number. Ctrl-C leaves.',
      message,
      choices: [
        ...still,
        ...listed.toSpliced(ON_FIRST_PAGE - still.length, 0, {
          value: 'skip',
          name: 'none of these: just ask',
        }),
      ],
      actions: [],
      listens: true,
      before,
    });
  let { value, text } = await ask();
  // A mark alone is no complaint.
  while (text !== undefined && !/[\p{L}\p{N}]/u.test(text)) {
    const how = audience === 'rider' ? HOW : `${HOW} ${ALONE}`;
    await showRead(prompter, `${paragraph(how, prompter.style.width - 1, '  ')}\n`);
    ({ value, text } = await ask());
  }
  if (text !== undefined) return { said: text };
  if (value === 'still') return await words!.hearAgain(workspace, last!);
  const left = parts.find((part) => value === `left:${part}`);
  if (left !== undefined) return await words!.hearAgain(workspace, last!, left);
  const opening = openings.find((o) => value === `open:${o.id}`);
  if (opening === undefined) return [{ type: 'open', topics: [] }];
  const answers = Object.entries(opening.answers).map(([question, answer]) => ({
    question,
    answer,
    sure: 'sure' as const,
  }));
  return [
    { type: 'open', topics: opening.topics },
    ...(answers.length === 0 ? [] : [{ type: 'confirm' as const, answers }]),
  ];
}

/** What bothered in the interview before, in its words; undefined where nobody said. */
function beforeWords(
  openings: Workspace['rules']['openings'],
  last: LastInterview | undefined,
  audience: Audience,
): string | undefined {
  if (last?.said !== undefined) return `"${printable(last.said, MOST_NAME)}"`;
  const opening = openings.find(
    ({ topics }) => topics.length > 0 && topics.join(' ') === last?.about.join(' '),
  );
  const words = audience === 'rider' ? opening?.plain : opening?.say;
  return words === undefined ? undefined : `"${words}"`;
}

/** The prompts of an interview: each turns what was chosen into one event of the session. */
import type { Bench } from '../advice/bench.ts';
import type { Sure } from '../casework/case.ts';
import type { Prompter } from '../console/prompter.ts';
import { running } from '../interview/running.ts';
import { look, type Event, type Interview } from '../interview/session.ts';
import { why } from '../interview/why.ts';
import { runningLine, whyText } from '../report/interview-text.ts';
import type { Desk } from './desk.ts';

type Audience = 'mechanic' | 'rider';

const SURENESS: readonly Sure[] = ['sure', 'fairly', 'guess'];

/** "What bothers you most": from the short list, in own words, or straight to the questions. */
export async function askOpening(desk: Desk, prompter: Prompter, audience: Audience): Promise<Event[]> {
  const { openings } = desk.rules;
  if (openings.length === 0) return [];
  const chosen = await prompter.ask({
    head: 'Digits or arrows and return; Ctrl-C keeps what was answered.',
    message: 'What bothers you most?',
    choices: openings.map((o) => ({ value: `open:${o.id}`, name: audience === 'rider' ? o.plain : o.say })),
    actions: [
      { key: 't', value: 'type', name: 'type it in own words' },
      { key: 'k', value: 'skip', name: 'straight to the questions' },
    ],
  });
  if (chosen === 'skip') return [];
  if (chosen === 'type') {
    const { askOwnWords } = await import('./own-words-prompt.ts');
    return askOwnWords(desk, prompter);
  }
  const opening = openings.find((o) => chosen === `open:${o.id}`)!;
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

/** Asks the current question until an event comes of it. */
export async function askQuestion(
  desk: Desk,
  bench: Bench,
  state: Interview,
  prompter: Prompter,
  audience: Audience,
): Promise<Event> {
  const { model } = desk;
  const question = desk.rules.questions[model.questionIndex.get(state.current!)!]!;
  const head = runningLine(state.steps.length + 1, running(model, look(model, bench, state)), prompter.style);
  let sure: Sure = 'sure';
  for (;;) {
    const chosen = await prompter.ask({
      head,
      message: audience === 'rider' ? question.plain : question.ask,
      help: audience === 'rider' ? question.help : undefined,
      choices: question.answers.map((a) => ({ value: `answer:${a.id}`, name: a.text })),
      actions: [
        { key: 'c', value: 'cannot-tell', name: "can't tell" },
        ...(question.safety
          ? []
          : [
              {
                key: 'n',
                value: 'not-now',
                name: question.how === 'recall' ? 'not now' : `not now (${question.how})`,
              },
            ]),
        { key: 's', value: 'sure', name: `how sure: ${sure}` },
        { key: 'w', value: 'why', name: 'why ask this' },
        ...(state.steps.length === 0
          ? []
          : [
              { key: 'b', value: 'back', name: 'back' },
              { key: 'e', value: 'earlier', name: 'change an earlier answer' },
            ]),
        { key: 'f', value: 'finish', name: 'finish now' },
        { key: '?', value: 'words', name: 'a word explained' },
      ],
    });
    switch (chosen) {
      case 'cannot-tell':
      case 'not-now':
      case 'back':
      case 'finish':
        return { type: chosen };
      case 'sure':
        sure = SURENESS[(SURENESS.indexOf(sure) + 1) % SURENESS.length]!;
        break;
      case 'why':
        prompter.say(whyText(why(model, bench, state, question.id), prompter.style));
        break;
      case 'earlier': {
        const event = await askEarlier(desk, state, prompter, audience);
        if (event !== undefined) return event;
        break;
      }
      case 'words':
        await explainWord(desk, prompter);
        break;
      default:
        return { type: 'answer', answer: chosen.slice('answer:'.length), sure };
    }
  }
}

/** Which earlier answer to change, and to what; undefined when the user thinks better of it. */
async function askEarlier(
  desk: Desk,
  state: Interview,
  prompter: Prompter,
  audience: Audience,
): Promise<Event | undefined> {
  const questionOf = (id: string) => desk.rules.questions[desk.model.questionIndex.get(id)!]!;
  const leave = { key: 'b', value: 'leave', name: 'leave it' };
  // Nine digits; the latest answers are the ones people want back.
  const latest = state.steps.slice(-9).reverse();
  const which = await prompter.ask({
    head: 'Latest first',
    message: 'Which answer?',
    choices: latest.map((s) => {
      const q = questionOf(s.question);
      return {
        value: s.question,
        name: `${q.ask} ${q.answers.find((a) => a.id === s.answer)?.text ?? s.answer}`,
      };
    }),
    actions: [leave],
  });
  if (which === 'leave') return undefined;
  const question = questionOf(which);
  const answer = await prompter.ask({
    head: 'Changed answer',
    message: audience === 'rider' ? question.plain : question.ask,
    choices: question.answers.map((a) => ({ value: a.id, name: a.text })),
    actions: [{ key: 'c', value: 'cannot-tell', name: "can't tell" }, leave],
  });
  return answer === 'leave' ? undefined : { type: 'change', question: which, answer };
}

async function explainWord(desk: Desk, prompter: Prompter): Promise<void> {
  const { glossaryText } = await import('../report/glossary-text.ts');
  const word = await prompter.text('Which word? (return alone lists them all)');
  prompter.say(glossaryText(desk.rules.glossary, word.trim(), prompter.style));
}

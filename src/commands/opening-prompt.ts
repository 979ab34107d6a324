/** "What bothers you most": from the short list, in own words, or straight to the questions. */
import type { Prompter } from '../console/prompter.ts';
import type { Event } from '../interview/session.ts';
import type { Desk } from './desk.ts';
import type { Audience } from './interview-prompts.ts';

export async function askOpening(desk: Desk, prompter: Prompter, audience: Audience): Promise<Event[]> {
  const { openings } = desk.rules;
  if (openings.length === 0) return [];
  const message = audience === 'rider' ? 'What bothers you most?' : 'What bothers the rider most?';
  for (;;) {
    const { value } = await prompter.ask({
      head: 'Every answer is kept at once: leave with Ctrl-C whenever you like.',
      message,
      choices: openings.map((o) => ({ value: `open:${o.id}`, name: audience === 'rider' ? o.plain : o.say })),
      actions: [
        { key: 't', value: 'type', name: 'type it in own words', brief: 'own words' },
        { key: 'k', value: 'skip', name: 'straight to the questions', brief: 'skip this' },
      ],
    });
    if (value === 'skip') return [{ type: 'open', topics: [] }];
    if (value === 'type') {
      const { askOwnWords } = await import('./own-words-prompt.ts');
      const events = await askOwnWords(desk, prompter, audience);
      if (events !== undefined) return events;
      continue;
    }
    const opening = openings.find((o) => value === `open:${o.id}`)!;
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
}

/** What stands at the end of a full report: every cause with its evidence, the trials, and how it was worked out. */
import { percent } from '../form/text.ts';
import { changeWords, outcomeWord } from './bike/change-words.ts';
import { atOnceWords } from './phrases.ts';
import { decibanNumber } from './decibans.ts';
import { evidenceText } from './evidence-words.ts';
import { shownCauses } from './result/ideas.ts';
import type { Result } from './result/result.ts';
import { causeWords, ideaWords, type Words } from './verdict/voice.ts';

export type Put = (text: string, lead?: string) => void;
export type Head = (text: string) => void;

/** Less than this, in decibans, says nothing. */
const NOTHING_SAID = 0.05;

/** All that it could be with the evidence, what the trials showed, and the rules it was worked out by. */
export function detail(result: Result, put: Put, head: Head, words: Words): void {
  head('What it could be');
  put(`nothing off: ${percent(result.nothing)}`);
  for (const shown of shownCauses(result)) {
    const c = shown.cause;
    const alone =
      shown.name === c.name ? '' : `, ${causeWords(c, words)} by itself ${percent(c.probability)}`;
    put(`${ideaWords(shown, words)}: ${percent(shown.probability)}${alone}  [${c.id}]`);
    for (const e of c.evidence)
      if (Math.abs(e.decibans) >= NOTHING_SAID)
        put(evidenceText(words.rules, e, words.audience), `    ${decibanNumber(e.decibans).padStart(9)}  `);
  }
  const atOnce = atOnceWords([result.nothing, ...shownCauses(result).map((c) => c.probability)], 100);
  if (atOnce !== undefined) put(atOnce);
  if (result.trials.length > 0) {
    head('What the trials showed');
    const names = new Map(result.causes.map((c) => [c.id, c.name]));
    for (const t of result.trials)
      put(
        `${changeWords(t.what, undefined, words.rules)}: ${outcomeWord(t.outcome)}; moved most: ${names.get(t.cause) ?? t.cause} by ${decibanNumber(t.decibans)}`,
      );
  }
  head('How this was worked out');
  if (result.fit !== null)
    put(
      `How well the answers fit together: z = ${result.fit.z.toFixed(2).replace('-', '−')} (the lower, the better).`,
    );
  put(`Rules: ${result.rules.name} ${result.rules.version} (${result.rules.digest.slice(0, 12)})`);
}

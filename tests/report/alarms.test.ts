/** What must be checked before riding stands in every printed form, first, in the words of the text. */
import { describe, expect, it } from 'vitest';
import { earshot } from '../support/io.ts';

const flat = (text: string): string => text.replaceAll(/\s+/g, ' ');
/** Without the marks and tags of a form. */
const bare = (text: string): string =>
  flat(
    text
      .replace(/<style>.*?<\/style>/s, '')
      .replaceAll(/<[^>]*>/g, ' ')
      .replaceAll('&quot;', '"')
      .replaceAll('&#39;', "'")
      .replaceAll('""', '"'),
  );
const FORMS = [
  ['markdown', ['diagnose', '--format', 'markdown'], '**Do this first', '| cause |'],
  ['csv', ['diagnose', '--format', 'csv'], undefined, undefined],
  ['the pit sheet', ['report'], 'Do this first', 'Settings'],
  ['the pit sheet in Markdown', ['report', '--format', 'markdown'], '## Do this first', '## Settings'],
] as const;
const SAID = {
  case: 1,
  id: 'x',
  said: 'It leaks. It packs down.',
  answers: {
    'safety.brakes': 'good',
    complaint: 'rows',
    'hit-pattern': 'row',
    'repeated-hits.trend@front': 'worse',
    'return-speed@front': 'deep',
    'sag@front': 'target',
  },
};
const made = async (argv: readonly string[], kase: object): Promise<string> =>
  bare((await earshot([argv[0]!, '-', ...argv.slice(1)], { stdin: JSON.stringify(kase) })).out);

describe.each([['mechanic'], ['rider']])('for a %s', (who) => {
  it.each(FORMS)(
    '%s begins with what the text says must be checked before riding',
    async (_, argv, first, later) => {
      const options = [...argv, '--for', who];
      const text = (await earshot(['diagnose', '-', '--for', who], { stdin: JSON.stringify(SAID) })).out;
      const told = flat(/^! (Check before riding: "leaks" was said\. [^]*?)\n\n/m.exec(text)![1]!);
      const out = await made(options, SAID);
      expect(out.split(told)).toHaveLength(2);
      // It is asked there, and not once more as something to be confirmed.
      expect(out).not.toMatch(/"leaks" could mean|“leaks”/);
      for (const after of [first, later])
        if (after !== undefined) expect(out.indexOf(after)).toBeGreaterThan(out.indexOf(told));
      const checked = await made(options, { ...SAID, answers: { ...SAID.answers, 'safety.found': 'none' } });
      expect(checked).not.toContain('Check before riding');
    },
  );
});

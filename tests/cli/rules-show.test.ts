/** `earshot rules show` and `earshot rules schema` through the program. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { baseRules } from '../support/base-rules.ts';
import { earshot } from '../support/io.ts';

const { rules } = baseRules();
const show = (...argv: string[]) => earshot(['rules', 'show', ...argv]);
const CAUSE = 'front.rebound.high.too-slow';

describe('rules show', () => {
  it.each(['questions', 'causes', 'settings', 'adjustments', 'cautions'] as const)(
    'lists the %s, one a line, each by its id',
    async (list) => {
      const { code, out } = await show(list);
      expect(code).toBe(0);
      expect(
        out
          .trimEnd()
          .split('\n')
          .map((line) => line.split(' ')[0]),
      ).toEqual(rules[list].map((entry) => entry.id).filter((id) => !id.endsWith('@either')));
    },
  );

  it('lists the questions when nothing is named', async () => {
    expect(await show()).toEqual(await show('questions'));
  });

  it('says of a cause which questions point to it and what cures it', async () => {
    const { code, out } = await show(CAUSE);
    expect(code).toBe(0);
    const index = rules.causes.findIndex((c) => c.id === CAUSE);
    const { links, answers, id } = rules.questions.find((q) => q.links.some(([cause]) => cause === index))!;
    const answer = answers[links.find(([cause]) => cause === index)![1]]!.id;
    expect(out).toContain(rules.causes[index]!.name);
    expect(out).toContain(`${id} = ${answer}`);
    expect(out).toContain('front.rebound.high.open');
  });

  it('says of a question which answers stop the ride, also beside others, and what they warn of', async () => {
    const text = (id: string): string => rules.cautions.find((c) => c.id === id)!.text;
    const flat = async (id: string): Promise<string> => (await show(id)).out.replaceAll(/\s+/g, ' ');
    const undamped = text('stop-undamped');
    expect(await flat('push-return@front')).toContain(`! Stops all tuning: ${undamped}`);
    expect(await flat('knob-effect@rear')).toContain(
      `! Stops all tuning beside push-return@rear = springs or undamped, or onset = sudden: ${undamped}`,
    );
    expect(await flat('hands')).toContain(`! ${text('numb-hands')}`);
    expect(await flat('hands')).not.toContain('Stops all tuning');
  });

  it('says of an adjustment which cautions only some answers ask for', async () => {
    const { out } = await show('last-change.put-back');
    expect(out.replaceAll(/\s+/g, ' ')).toContain(
      '! Where recent-change is spacer or several: Before you open an air spring',
    );
  });

  it('is the rule itself as data', async () => {
    const { out } = await show('hit-pattern', '--format', 'json');
    expect(JSON.parse(out)).toMatchObject({ id: 'hit-pattern', ask: expect.any(String) as string });
  });

  it('refuses an unknown id with the nearest one', async () => {
    const { code, err } = await show('front.rebound.hi.too-slow');
    expect(code).toBe(2);
    expect(err).toBe(`Nothing has the id front.rebound.hi.too-slow. Did you mean ${CAUSE}?\n`);
  });

  it('takes what every object has for no id that was retired', async () => {
    expect((await show('constructor')).err).not.toContain('retired');
  });

  it.each([
    ['return-speed', 'return-speed@front or return-speed@rear'],
    ['rebound.low', 'front.rebound.low or rear.rebound.low'],
  ])('asks for the end of %s, which is an id at each', async (id, both) => {
    expect((await show(id)).err).toBe(`Nothing has the id ${id}. Name its end: ${both}.\n`);
  });

  it('says in which file and line a rule stands', async () => {
    const { out } = await show('hit-pattern');
    const [, file, line] = /^ {2}(rules\/base\/\S+\.yaml):(\d+)$/m.exec(out)!;
    const lines = readFileSync(new URL(`../../${file}`, import.meta.url), 'utf8').split('\n');
    expect(lines[Number(line) - 1]).toContain('id: hit-pattern');
  });
});

describe('rules schema', () => {
  it.each(['case', 'rules', 'pack', 'result', 'bike'])('gives the JSON Schema of a %s', async (what) => {
    const { code, out, err } = await earshot(['rules', 'schema', what]);
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(JSON.parse(out)).toMatchObject({ $schema: 'https://json-schema.org/draft/2020-12/schema' });
  });

  it('refuses another with the nearest one', async () => {
    const { code, err } = await earshot(['rules', 'schema', 'cases']);
    expect(code).toBe(2);
    expect(err).toBe('There is no schema cases. Did you mean case?\n');
  });
});

describe('a list', () => {
  it('keeps to the width of a terminal, and has a line an entry for other programs', async () => {
    for (const width of [40, 80]) {
      const { out } = await earshot(['rules', 'show', 'cautions'], { tty: true, width });
      expect(out.split('\n').filter((line) => line.length > width)).toEqual([]);
    }
    const { out } = await earshot(['rules', 'show', 'cautions']);
    expect(out).toMatch(/^makers-manual +Stay inside the manufacturer's limits.*the manual wins\.$/m);
  });
});

import { describe, expect, it } from 'vitest';
import type { Io } from '../../src/host/io.ts';
import { words, type WordsOptions } from '../../src/cli/commands/words.ts';
import { PLAIN } from '../../src/report/style.ts';

async function ran(options: Partial<WordsOptions>): Promise<{ code: number; out: string }> {
  let out = '';
  const io: Io = {
    out: (text) => void (out += text),
    err: () => undefined,
    stdin: (async function* () {})(),
    cwd: process.cwd(),
    env: { EARSHOT_HOME: '/nonexistent-home' },
    stdinIsTty: false,
    stdoutIsTty: false,
    stderrIsTty: false,
    width: 80,
    now: () => new Date(0),
  };
  const all: WordsOptions = { said: [], list: false, rules: [], format: 'text', style: PLAIN, ...options };
  return { code: await words(all, io), out };
}

const widest = (text: string): number => Math.max(...text.split('\n').map((line) => [...line].length));

describe('earshot words', () => {
  it('offers what a phrase could mean, to be confirmed', async () => {
    const { code, out } = await ran({ said: ['the front dives when I brake'] });
    expect(code).toBe(0);
    expect(out).toContain('"front dives when I brake", at the front');
    expect(out).toContain('brake-dive: dives');
    expect(out).toContain('None of this counts until it is confirmed');
  });

  it('gives the meanings of an ambiguous word and the questions that separate them', async () => {
    const { out } = await ran({ said: ['it', 'bucked', 'me'] });
    expect(out).toMatch(/can mean different things.*\n(.|\n)*\? .*\[hit-pattern\]/);
    expect(out).not.toContain('could mean');
  });

  it('says once of a question that asks about two things that it is answered later', async () => {
    const { out } = await ran({ said: ['Should I close the rebound or add a token?'] });
    expect(out.match(/asks about doing it/g)).toHaveLength(1);
  });

  it('gives one word its meanings once, though two phrases of the rules have it', async () => {
    for (const said of ['it bucks me', 'kicked'])
      expect((await ran({ said: [said] })).out.match(/can mean different things/g)).toHaveLength(1);
  });

  it('says which part of it was not understood', async () => {
    const { out } = await ran({ said: ['the front packs down and my cat is ill'] });
    expect(out).toContain('\nNot understood: "my cat is ill".\n');
  });

  it('offers no sign for a denied phrase', async () => {
    const { out } = await ran({ said: ['the front never dives'] });
    expect(out).toContain('heard as a no');
    expect(out).toContain('brake-dive: no');
    expect(out).not.toContain('brake-dive: dives');
  });

  it('tells what does not go together, and what was tried as it would stand in a case', async () => {
    const clash = await ran({
      said: ['the fork soaks up small bumps. but small bumps come straight through at the front'],
    });
    expect(clash.out).toContain('It does not go with "soaks up small bumps"');
    const { out } = await ran({ said: ['opened the rear rebound two clicks, no better, put it back'] });
    expect(out).toContain('Rear rebound opened 2 clicks: it made no difference; put back');
    expect(out.replaceAll(/\s+/g, ' ')).toContain(
      'tried: [{ setting: rebound, end: rear, direction: open, by: 2, unit: clicks, result: same, put-back: yes }]',
    );
  });

  it('says so when nothing is known, and is done', async () => {
    expect(await ran({ said: ['lovely weather'] })).toMatchObject({
      code: 0,
      out: expect.stringContaining('None of these words are known') as string,
    });
  });

  it('gives all of it as one JSON object', async () => {
    const { out } = await ran({ said: ['the rear kicks on a lone root'], format: 'json' });
    expect(JSON.parse(out)).toMatchObject({
      format: 1,
      said: 'the rear kicks on a lone root',
      readings: [
        {
          phrase: 'lone-kick',
          end: 'rear',
          negated: false,
          candidates: [
            { question: 'hit-pattern', answer: 'one', confirmed: false },
            { question: 'lone-hit.kick@rear', answer: 'kicks', confirmed: false },
            { question: 'trouble-end', answer: 'rear', confirmed: false },
            { question: 'complaint', answer: 'hits', confirmed: false },
          ],
        },
      ],
    });
  });

  it('stays within the columns, also narrow ones, and in ASCII where asked', async () => {
    const said = ['harsh and nervous, kicks off jumps, packs down, dives, bottoms out on landings'];
    for (const width of [80, 40]) {
      const { out } = await ran({ said, style: { ...PLAIN, width, unicode: false } });
      expect(widest(out)).toBeLessThanOrEqual(width);
      // oxlint-disable-next-line no-control-regex -- nothing but printable ASCII and line ends
      expect(out).toMatch(/^[\n\x20-\x7e]*$/);
    }
  });

  it('refuses an empty call with a way on', async () => {
    await expect(ran({ said: ['  '] })).rejects.toThrow('earshot words --list');
  });
});

describe('earshot words --list', () => {
  it('lists the glossary within 80 columns', async () => {
    const { code, out } = await ran({ list: true });
    expect(code).toBe(0);
    expect(widest(out)).toBeLessThanOrEqual(80);
    expect(out.split('\n').filter((line) => /^\S/.test(line)).length).toBeGreaterThanOrEqual(40);
  });

  it('shows one term', async () => {
    const { out } = await ran({ list: true, said: ['Sag', 'Ring'] });
    expect(out).toMatch(/^sag ring\n {2}A rubber ring/);
  });

  it('gives the terms as JSON', async () => {
    const { out } = await ran({ list: true, said: ['stiction'], format: 'json' });
    expect(JSON.parse(out)).toMatchObject({ format: 1, glossary: [{ term: 'stiction' }] });
  });

  it('refuses a term that is not there, with the nearest one', async () => {
    await expect(ran({ list: true, said: ['stictoin'] })).rejects.toThrow('Did you mean stiction?');
  });
});

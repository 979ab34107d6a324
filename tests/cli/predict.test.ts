/** `earshot predict` through the program. */
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { physicsOf } from '../../src/advice/physics.ts';
import { bikeFromSheet } from '../../src/physics/index.ts';
import { exampleSheet } from '../bike/example.ts';
import { earshot as run, type Ran } from '../support/io.ts';

const cwd = mkdtempSync(join(tmpdir(), 'earshot-predict-'));
afterAll(() => rmSync(cwd, { recursive: true, force: true }));

const BIKE = resolve('examples/bikes/all-knobs.yaml');
const predict = (...argv: string[]): Promise<Ran> => run(['predict', ...argv], { cwd });

interface Told {
  readonly metrics: readonly {
    readonly scenario: string;
    readonly metric: string;
    readonly effect: string;
  }[];
  readonly notes: readonly string[];
}

describe('a change', () => {
  it('is told as every metric before and after, in text and as data', async () => {
    const text = await predict('--bike', BIKE, '--change', 'front.rebound.high+3');
    expect(text).toMatchObject({ code: 0, err: '' });
    expect(text.out).toContain('row of braking bumps');
    expect(text.out.replaceAll(/\n +/g, ' ')).toMatch(
      /better +front meets the next bump: [\d.]+ to [\d.]+ mm higher, now [\d.]+ mm below sag/,
    );
    const data = await predict('--bike', BIKE, '--change', 'front.rebound.high+3', '--format', 'json');
    const { metrics } = JSON.parse(data.out) as Told;
    const effects = new Map(metrics.map((m) => [`${m.scenario}/${m.metric}`, m.effect]));
    expect(effects.get('row/travel-not-recovered.front')).toBe('better');
    expect(effects.get('landing/kick-velocity.front')).toBe('worse');
  });

  it('says of rides that show nothing what they are, and from where on the knob itself is felt', async () => {
    const turn = async (clicks: number): Promise<string> =>
      (await predict('--bike', BIKE, '--change', `rear.rebound.low+${clicks}`)).out.replaceAll(/\n */g, ' ');
    const one = await turn(1);
    expect(one).toMatch(/the difference is too small to feel/);
    const [, felt] = /takes (\d+) clicks that way before a rider can feel the knob's own damping/.exec(one)!;
    // The very step that a diagnosis takes.
    const { clicks } = physicsOf(bikeFromSheet(exampleSheet('all-knobs')), exampleSheet('all-knobs'));
    expect(Number(felt)).toBe(clicks['rear.rebound.low+']);
    expect(await turn(Number(felt))).not.toContain('before a rider can feel');
  });

  it('says what stands in where there is no sheet, and what the temperature leaves out', async () => {
    const { out } = await predict('--change', 'front.rebound.low+2', '--celsius', '5', '--format', 'json');
    const { notes } = JSON.parse(out) as Told;
    expect(notes.join('\n')).toContain('a default enduro bike stands in');
    expect(notes.join('\n')).toContain('oil at 5 °C');
  });

  it('is refused past a stop, with what is left', async () => {
    const { code, out, err } = await predict('--change', 'front.rebound.low+20');
    expect({ code, out }).toEqual({ code: 1, out: '' });
    expect(err).toBe('front.rebound.low+20: it stands at 8 of 16 clicks from closed: 8 are left that way.\n');
  });
});

describe('plots', () => {
  const withPlots = (file: string, ...more: string[]): Promise<Ran> =>
    predict('--change', 'front.rebound.low+2', '--svg', file, ...more);
  const plots = (file: string): string => readFileSync(join(cwd, file), 'utf8');
  const SVG = /^<\?xml [^>]*>\n<svg[\s\S]*<\/svg>\n$/;

  it('are written to a new file', async () => {
    expect((await withPlots('plots.svg')).code).toBe(0);
    expect(plots('plots.svg')).toMatch(SVG);
  });

  it('are written over a file that is there only when asked to', async () => {
    writeFileSync(join(cwd, 'mine.svg'), 'mine');
    expect(await withPlots('mine.svg')).toEqual({
      code: 2,
      out: '',
      err: 'mine.svg already exists. Choose another name, or overwrite it with --force.\n',
    });
    expect(plots('mine.svg')).toBe('mine');
    expect((await withPlots('mine.svg', '--force')).code).toBe(0);
    expect(plots('mine.svg')).toMatch(SVG);
  });

  it('are of a change', async () => {
    const { code, err } = await predict('--sweep', 'front.rebound.low', '--svg', 'sweep.svg');
    expect(code).toBe(2);
    expect(err).toContain('--svg goes with --change');
  });

  it('that cannot be written are a mistake of the call, not a fault of the program', async () => {
    mkdirSync(join(cwd, 'a-folder'));
    const nowhere = await withPlots('no/such/folder/plots.svg');
    expect(nowhere.code).toBe(2);
    expect(nowhere.err).toMatch(
      /^no\/such\/folder\/plots\.svg cannot be written: .* Choose another place\.\n$/,
    );
    const folder = await withPlots('a-folder');
    expect(folder).toMatchObject({ code: 2, err: 'a-folder is a folder. Name a file in it.\n' });
  });
});

describe('a sweep', () => {
  it('has a line for every click, with where the bike stands and where it begins to pack', async () => {
    const { out } = await predict('--bike', BIKE, '--sweep', 'front.rebound.low');
    const clicks = out.split('\n').flatMap((line) => /^ +(\d+) /.exec(line)?.[1] ?? []);
    expect(clicks).toEqual(Array.from({ length: 17 }, (_, click) => String(click)));
    expect(out).toMatch(/^ +8 .* {2}now\b/m);
    expect(out.match(/^It packs down /gm)).toHaveLength(1);
    expect(out.match(/^It kicks /gm)).toHaveLength(1);
  });

  it('of no knob says which was meant', async () => {
    const { code, err } = await predict('--sweep', 'front.rebond.low');
    expect(code).toBe(2);
    expect(err).toBe('There is no knob front.rebond.low. Did you mean front.rebound.low?\n');
  });
});

describe('a slope', () => {
  it('loads the front, where the clicks then act faster, and takes as much off the rear', async () => {
    const out = (await predict('--slope', '25')).out.replaceAll(/\n +/g, ' ');
    expect(out).toMatch(/front .*: acts faster there/);
    expect(out).toMatch(/rear .*: acts slower there/);
    const flat = await predict('--slope', '0');
    expect(flat.out).not.toContain('acts');
    interface Slope {
      readonly level: Record<string, { readonly share: number }>;
      readonly steep: Record<string, { readonly share: number }>;
    }
    const { level, steep } = JSON.parse((await predict('--slope', '25', '--format', 'json')).out) as Slope;
    expect(steep['front']!.share - level['front']!.share).toBeCloseTo(
      level['rear']!.share - steep['rear']!.share,
      12,
    );
  });
});

it('asks for something to look at', async () => {
  const { code, err } = await predict();
  expect(code).toBe(2);
  expect(err).toContain('Say what to look at');
});

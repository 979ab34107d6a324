import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { trialRecord } from '../../src/cli/commands/trial/record.ts';
import type { Io } from '../../src/host/io.ts';
import { ROOT } from '../../src/host/root.ts';
import { Left, type Asked, type Prompter } from '../../src/console/prompter.ts';
import { openLog } from '../../src/logbook/log.ts';
import type { Result } from '../../src/report/result/result.ts';
import type { Trial } from '../../src/trials/trial.ts';
import { parse } from 'yaml';
import { PLAIN } from '../../src/report/style.ts';
import { ride, workshop, type Workshop } from '../story/place.ts';

const BIKE = ['--bike', 'bike.yaml'] as const;
const plan = (shop: Workshop, ...more: string[]) =>
  shop.run('trial', 'plan', '--long', ...BIKE, '--change', 'front.rebound.low+2', ...more);
const record = (shop: Workshop, ...more: string[]) => shop.run('trial', 'record', ...BIKE, ...more);
const judge = (shop: Workshop, ...more: string[]) => shop.run('trial', 'judge', ...BIKE, ...more);

describe('trial plan', () => {
  it('takes a part of the way for as likely as its cause, and rates what was said though the change is for something else', async () => {
    const shop = workshop();
    await shop.out('bike', 'set', ...BIKE, 'rear.sag=16%', 'rear.sag.wanted=29%');
    shop.writeCase('case.yaml', {
      case: 1,
      id: 'firm',
      bike: 'bike.yaml',
      said: 'it bucks me off the lip',
      answers: { complaint: 'air', lip: 'rear-over', 'safety.found': 'none', 'safety.brakes': 'good' },
    });
    const [told] = (await shop.json('diagnose', 'case.yaml')) as [Result];
    const { helps, likely } = told.adjustments.find(({ id }) => id === told.first)!;
    expect(likely).toBeGreaterThan(2 * helps);
    const { out } = await shop.run('trial', 'plan', ...BIKE, '--case', 'case.yaml');
    expect(out).toContain('"bucks me off the lip"');
    const folder = join(shop.env['EARSHOT_HOME']!, 'bikes/birch/trials');
    const [file] = readdirSync(folder);
    const { chances } = parse(readFileSync(join(folder, file!), 'utf8')) as Trial;
    expect(chances!.helps).toBeCloseTo(likely!, 3);
  });
  it('prints runs in order with what to set, what to feel for, cautions and blanks, in 80 columns', async () => {
    const { code, out } = await plan(workshop());
    expect(code).toBe(0);
    const [setter, rider] = out.split('For the rider');
    expect(setter).toMatch(/^ {3}1 {7}8 {2}leave it$/m);
    expect(setter).toMatch(/^ {3}2 {6}10 {2}2 clicks out$/m);
    expect(rider).toMatch(/^ {3}3 {2}_{7} {2}_{4}/m);
    expect(rider).not.toMatch(/2 clicks (?:out|in)/);
    expect(out).toContain('Feel for: whether the front is back up');
    expect(out).toContain('Never force an adjuster against its stop');
    expect(out.split('\n').every((line) => line.length <= 80)).toBe(true);
    // Paper has its day, the way back, how it comes into the log, and how it gets out of it again.
    expect(setter).toContain('Date ____');
    expect(setter).toContain('The way back: 8 clicks from fully closed.');
    const kept = out.replaceAll(/\s+/g, ' ');
    expect(kept).toContain('This trial is open in the log of the bike from now on.');
    expect(kept).toContain('run by run: earshot trial record --bike bike.yaml');
    expect(kept).toContain('earshot trial judge --bike bike.yaml --trial front-rebound-low-1 --close');
  });

  it('rides the other direction on request only, after the advised one', async () => {
    const change = ['--change', 'front.compression.low+2'];
    const { out } = await workshop().run('trial', 'plan', '--long', ...BIKE, ...change, '--both-ways');
    expect([...out.matchAll(/^ {3}\d +(\d+) {2}\S/gm)].map((row) => row[1])).toEqual([
      '9', '11', '7', '9', '7', '9', '11',
    ]); // prettier-ignore
    // Closing the front rebound carries a caution that opening it does not.
    expect((await plan(workshop(), '--both-ways')).err).toContain('Do not test the other direction.');
  });

  it('warns of the spring that is in there, and says in words what to measure again', async () => {
    const cautions = async (example: string, change: string): Promise<string> => {
      const argv = ['trial', 'plan', '--long', ...BIKE, '--change', change, '--no-save'];
      return (await workshop(example).out(...argv)).replaceAll(/\s+/g, ' ');
    };
    const air = await cautions('few-knobs', 'front.spring-0.3bar');
    expect(air).toContain('Use a shock pump with a gauge');
    expect(air).not.toMatch(/coil|preload between/);
    expect(air).toContain('Measure sag again afterwards');
    expect(await cautions('coil', 'rear.spring+1turns')).toContain('The coil must sit tight');
  });

  it('keeps nothing with --no-save', async () => {
    const shop = workshop('all-knobs', false);
    expect((await plan(shop, '--no-save')).code).toBe(0);
    expect(readdirSync(shop.folder)).toEqual(['bike.yaml']);
  });

  it('writes down where the bike stood, so that there is a way back', async () => {
    const shop = workshop();
    await plan(shop);
    expect((await shop.json('log', 'export', ...BIKE)).entries[0]).toMatchObject({
      kind: 'start',
      changes: expect.arrayContaining([{ setting: 'front.rebound.low', to: 8, unit: 'clicks' }]),
    });
  });

  it('refuses a second trial while one is open, and says how to go on', async () => {
    const shop = workshop();
    await plan(shop);
    const { code, err } = await plan(shop, '--id', 'other');
    expect(code).toBe(2);
    expect(err).toMatch(/still open.*trial record.*\n.*--close/);
  });

  it.each([
    ['two changes', ['--change', 'front.rebound.low+2,rear.rebound.low+1'], /one change at a time/],
    [
      'the other way into a danger',
      ['--change', 'front.spring+5psi', '--both-ways'],
      /Do not test the other direction\. A low or diving front/,
    ],
    ['past a stop', ['--change', 'front.rebound.low+9'], /beyond its stop.*At most front.rebound.low\+8/],
    ['no change', ['--change', 'front.rebound'], /is not a change\. Write the setting/],
    ['neither change nor case', [], /Say what to try/],
  ])('refuses %s in words', async (_, argv, said) => {
    const ran = await workshop().run('trial', 'plan', '--long', ...BIKE, ...argv);
    expect(ran.code).toBe(2);
    expect(ran.err).toMatch(said);
  });

  it.each([
    ['something dangerous', { 'safety.noise': 'front' }, /Do not ride this bike/],
    ['nothing off', { complaint: 'nothing', 'hit-pattern': 'neither' }, /asks for no change/],
  ])('plans nothing for a case with %s', async (_, answers, said) => {
    const shop = workshop();
    shop.writeCase('case.yaml', { case: 1, id: 'case', answers });
    const ran = await shop.run('trial', 'plan', '--long', ...BIKE, '--case', 'case.yaml');
    expect(ran.err).toMatch(said);
    expect(ran.code).toBe(2);
  });

  it('takes a change of the line, and all else from the case it is for', async () => {
    const shop = workshop();
    shop.writeCase('case.yaml', {
      case: 1,
      id: 'packs',
      said: 'the front packs down, and the fork knocks',
      answers: {
        complaint: 'rows',
        'hit-pattern': 'row',
        'return-speed@front': 'deep',
        'repeated-hits.trend@front': 'worse',
      },
      results: [{ change: 'front.rebound.high+2', outcome: 'worse', kept: false, points: -0.1, error: 3 }],
    });
    const [advice] = await shop.json('diagnose', 'case.yaml', ...BIKE);
    expect(advice.refused[0].less).toBe('front.rebound.high+1');
    const line = ['trial', 'plan', ...BIKE, '--change', 'front.rebound.high+1'];
    const { trial } = await shop.json(...line, '--case', 'case.yaml', '--no-save');
    const { trial: bare } = await shop.json(...line, '--no-save');
    expect(trial).toMatchObject({ case: 'packs', change: { ...bare.change, from: 2, to: 3 } });
    expect(trial.cautions[0]).toMatch(/^Check before riding: "fork knocks" was said/);
    expect(trial.feelings[0].ask).toContain('"packs down"');
    expect(bare.cautions.join(' ')).not.toContain('Check before riding');
    expect(trial.chances).toEqual(bare.chances);
  });

  it('says of the rider what the advice says, and nothing of him where no case tells', async () => {
    const shop = workshop();
    const answers = { complaint: 'rows', 'hit-pattern': 'row', 'return-speed@front': 'deep', hands: 'numb' };
    shop.writeCase('case.yaml', { case: 1, id: 'numb', answers });
    const [advice] = await shop.json('diagnose', 'case.yaml', ...BIKE);
    const said = advice.cautions.find((one: { id: string }) => one.id === 'numb-hands').text;
    const line = ['trial', 'plan', ...BIKE, '--change', 'front.rebound.high+2', '--no-save'];
    expect((await shop.json(...line, '--case', 'case.yaml')).trial.cautions).toContain(said);
    expect((await shop.json(...line)).trial.cautions).not.toContain(said);
  });

  it.each([
    [3, false],
    [4, true],
  ])('says what a step of %d clicks needs, as the advice does', async (clicks, said) => {
    // The rule says from how many clicks on an end rides lower.
    const change = ['--change', `rear.rebound.low-${clicks}`];
    const { trial } = await workshop().json('trial', 'plan', ...BIKE, ...change, '--no-save');
    expect(trial.cautions.join(' ').includes('A lower rear takes weight off')).toBe(said);
  });

  it('sets no change beside a case that found something dangerous', async () => {
    const shop = workshop();
    shop.writeCase('case.yaml', { case: 1, id: 'case', answers: { 'safety.noise': 'front' } });
    const ran = await shop.run(
      'trial',
      'plan',
      ...BIKE,
      '--case',
      'case.yaml',
      '--change',
      'front.spring+5psi',
    );
    expect(ran.code).toBe(2);
    expect(ran.err).toMatch(/^Do not ride this bike/);
  });

  it('tells where the reason is to be read, with the bike and the packs it was asked with', async () => {
    const shop = workshop();
    shop.writeCase('case.yaml', { case: 1, id: 'case', answers: { 'safety.noise': 'front' } });
    const pack = join(ROOT, 'examples/packs/night-ride');
    const ran = await shop.run('--rules', pack, 'trial', 'plan', '--long', ...BIKE, '--case', 'case.yaml');
    expect(ran.err).toContain(`See why: earshot diagnose case.yaml --bike bike.yaml --rules ${pack}\n`);
  });
});

const TWO_COMPLAINTS = {
  case: 1,
  id: 'two',
  bike: 'bike.yaml',
  said: 'the rooty bit beats my hands up, and it dives on the brakes',
  answers: {
    'safety.found': 'none',
    'safety.brakes': 'good',
    complaint: 'rows',
    'hit-pattern': 'row',
    'repeated-hits.trend@front': 'worse',
    'return-speed@front': 'deep',
  },
};

describe('what was said beside the complaint that a step is for', () => {
  it('has no mark of its own, and is told where it goes; alone, a complaint needs no such line', async () => {
    const shop = workshop();
    shop.writeCase('two.yaml', TWO_COMPLAINTS);
    const flat = async (file: string): Promise<string> =>
      (await shop.out('trial', 'plan', ...BIKE, '--no-save', '--case', file)).replaceAll(/\s+/g, ' ');
    const out = await flat('two.yaml');
    expect(out).toContain('told: "beats my hands up": 1 as bad as it gets');
    expect(out).toContain(
      'what was said of "dives on the brakes" goes into the mark for the run as a whole.',
    );
    shop.writeCase('one.yaml', { ...TWO_COMPLAINTS, said: 'it beats my hands up' });
    expect(await flat('one.yaml')).not.toContain('mark of its own');
  });
  it('is named beside the key of the mark, where a mark is asked for by a wrong one', async () => {
    const shop = workshop();
    shop.writeCase('two.yaml', TWO_COMPLAINTS);
    await shop.out('trial', 'plan', ...BIKE, '--case', 'two.yaml');
    expect((await record(shop, '--rating', 'bounce=5')).err).toBe(
      'ratings.bounce: "bounce" is not rated in this trial. Rate one of these: told ("beats my hands up"), overall, grip, calm, hands.\n',
    );
  });
});

describe('trial record', () => {
  it('tells of all that is wrong with the options of a run at once, with one space between words', async () => {
    const shop = workshop();
    await plan(shop);
    const given = ['--run', 'xyz', '--time', '1:99', '--rating', 'foo=4', '--rating', 'grip', '--rating', ''];
    expect((await record(shop, ...given)).err).toBe(
      [
        "--run xyz: no such run. Write reference, plus, or the run's number.",
        '--rating grip: write it like grip=5.',
        "--rating '': write it like grip=5.",
        '--time 1:99: write seconds, 61.2, or minutes and seconds, 1:01.2.',
        'ratings.foo: "foo" is not rated in this trial. Rate one of these: overall, grip, calm, hands.',
        '',
      ].join('\n'),
    );
    expect((await record(shop, '--rating', 'Grip=5')).code).toBe(0);
  });
  it('says in a pipe, where nobody can be asked, how a run is written down by options', async () => {
    const shop = workshop();
    await plan(shop);
    expect(await record(shop)).toMatchObject({
      code: 2,
      err: 'To be asked, a terminal is needed. By options: earshot trial record --bike bike.yaml --rating overall=N --rating grip=N --rating calm=N --rating hands=N\n',
    });
  });
  it('says what to set next, and when all is ridden', async () => {
    const shop = workshop();
    await plan(shop);
    const { out } = await record(shop, '--rating', 'grip=4', '--time', '1:01.2');
    expect(out).toContain('Run 1: front low-speed rebound at 8 clicks from closed; grip 4, 61.2 s.');
    expect(out).toContain('Next is run 2: front low-speed rebound at 10 clicks from closed (2 clicks out).');
    await record(shop, '--rating', 'grip=4');
    expect((await record(shop, '--rating', 'grip=4', '--run', 'plus')).out).toContain(
      'at 10 clicks from closed; grip 4.',
    );
  });

  it('says how to end it where a run with the step got the worst mark, and only there', async () => {
    const shop = workshop();
    await plan(shop);
    const stop = 'If it scared you';
    expect((await record(shop, '--rating', 'calm=1')).out).not.toContain(stop);
    expect((await record(shop, '--rating', 'calm=2')).out).not.toContain(stop);
    await record(shop, '--drop-last');
    const { out } = await record(shop, '--rating', 'calm=1');
    expect(out).toContain(stop);
    expect(out).toMatch(/trial judge --bike bike\.yaml --close\n/);
  });

  it('says so after the last run too, and so does next, in front of the verdict', async () => {
    const shop = workshop();
    await shop.out('trial', 'plan', ...BIKE, '--change', 'front.rebound.low+2');
    const told = () => shop.json('next', ...BIKE);
    let last = await record(shop, '--rating', 'calm=1', '--run', 'reference');
    while (!last.out.includes('All runs are done')) {
      expect((await told()).next.do).not.toContain('If it scared you');
      last = await record(shop, '--rating', 'calm=4');
    }
    await record(shop, '--drop-last');
    const { out } = await record(shop, '--rating', 'calm=1', '--run', 'plus');
    const words = /You gave a 1 with the step in\. If it scared you[^]*trial judge [^\n]* --close\n/;
    expect(out).toMatch(new RegExp(`${words.source}All runs are done`));
    expect((await told()).next.do).toMatch(new RegExp(`^${words.source}`));
    // What is to be copied is set in, as every command is.
    expect(await shop.out('next', ...BIKE)).toMatch(/here:\n {2}earshot trial judge [^\n]* --close\n/);
  });

  it('puts an earlier run right by its number, and takes the last one off', async () => {
    const shop = workshop();
    await plan(shop);
    await record(shop, '--rating', 'grip=4');
    expect((await record(shop, '--run', '1', '--rating', 'grip=5')).out.replaceAll(/\s+/g, ' ')).toContain(
      'replaces the earlier entry',
    );
    const { out } = await record(shop, '--rating', 'grip=4');
    // The line can be copied as it is, whatever other bikes there are.
    expect(out).toMatch(/Wrong\? Delete it:\n  earshot trial record --bike \S+ --drop-last\n/);
    await record(shop, '--drop-last');
    expect((await record(shop, '--drop-last')).out).toContain('Next is run 1');
    expect((await record(shop, '--drop-last')).err).toContain('has no run');
  });

  it('names every mistake at once and writes nothing', async () => {
    const shop = workshop();
    await plan(shop);
    const { code, err } = await record(shop, '--rating', 'grip=9', '--rating', 'colour=3');
    expect(code).toBe(2);
    expect(err).toMatch(/ratings\.grip: 9 is not a rating.*\n.*"colour" is not rated/);
    expect((await record(shop, '--run', '4', '--rating', 'grip=3')).err).toContain('run 1 is next');
    expect((await record(shop, '--rating', 'grip=3', '--time', 'soon')).err).toContain('--time soon');
    expect((await record(shop, '--trial', 'none', '--rating', 'grip=3')).err).toContain('no trial none');
  });

  describe('at the prompt', () => {
    /** Answers in order, a text for a line of text; `^C` leaves. */
    async function told(shop: Workshop, answers: readonly string[], more = {}) {
      const asked: string[] = [];
      const left = [...answers];
      let said = '';
      const next = (question: string): string => {
        asked.push(question);
        const answer = left.shift();
        if (answer === undefined) throw new Error(`nothing to say to: ${question}`);
        if (answer === '^C') throw new Left('interrupt');
        return answer;
      };
      /** of the last question */
      let choices: string[] = [];
      const prompter: Prompter = {
        style: PLAIN,
        ask: async (question: Asked) => {
          choices = question.choices.map(({ name }) => name);
          return { value: next(`${question.head}: ${question.message}`), sure: 'sure' };
        },
        list: () => Promise.reject(new Error('no list here')),
        text: async (message) => next(message),
        say: (text) => void (said += text),
        close: async () => undefined,
      };
      const io = {
        cwd: shop.folder,
        env: shop.env,
        stdinIsTty: true,
        stdoutIsTty: true,
        out: (text: string) => void (said += text),
        err: (text: string) => void (said += text),
        now: () => new Date('2026-05-04T10:20:30Z'),
      } as unknown as Io;
      const options = {
        bike: 'bike.yaml',
        rating: [],
        hidden: false,
        known: false,
        dropLast: false,
        rules: [],
        style: async () => PLAIN,
        ...more,
      };
      const code = await trialRecord({ ...options, prompter: async () => prompter }, io);
      return { code, asked, said, left, choices };
    }
    /** The runs of one step, rated so, and what is said behind the last one. */
    const rideOut = async (
      shop: Workshop,
      marks: readonly (number | readonly number[])[],
      after: readonly string[],
      arms: readonly string[] = ['reference', 'plus', 'reference', 'plus'],
      planned: readonly string[] = ['--change', 'front.rebound.low+2'],
    ) => {
      await shop.out('trial', 'plan', ...BIKE, ...planned);
      const run = (mark: number | readonly number[], arm: string): string[] => [
        arm,
        ...(typeof mark === 'number' ? Array<number>(4).fill(mark) : mark).map(String),
        '',
      ];
      let last = { said: '', asked: [] as string[], left: [] as string[], choices: [] as string[], code: 0 };
      for (const [i, mark] of marks.entries())
        last = await told(shop, [
          ...(i === 0 ? ['known'] : []),
          ...run(mark, arms[i]!),
          ...(i === marks.length - 1 ? after : []),
        ]);
      return last;
    };
    it('tells the verdict after the last run, and on a yes writes it down and says what to do now', async () => {
      const shop = workshop();
      const { said, left } = await rideOut(shop, [5, 1, 5, 1], ['yes']);
      expect(left).toEqual([]);
      expect(said).toMatch(/Run 4: [^]*Put the front low-speed rebound back to 8 clicks/);
      expect(said).toContain('You gave a 1 with the step in');
      expect(said).toContain('Written into the log.');
      // What next says, and no command in between.
      const { next } = await shop.json('next', ...BIKE);
      const flat = (text: string): string => text.replaceAll(/\s+/g, ' ');
      expect(flat(said)).toContain(flat(next.do));
      expect(said).toContain(next.command);
      expect(await trialOf(shop)).toMatchObject({ verdict: 'back' });
    });
    it('asks of a run with a note whether it counts, and has one that was spoiled ridden again', async () => {
      const shop = workshop();
      await shop.out('trial', 'plan', ...BIKE, '--change', 'front.rebound.low+2');
      const marks = ['4', '4', '4', '4'];
      await told(shop, ['known', 'reference', ...marks, 'gusty', 'counts']);
      const { said, left } = await told(shop, ['plus', '1', '1', '1', '1', '58.1, slid once', 'again']);
      expect(left).toEqual([]);
      expect(said).toContain('Run 2 is left out (slid once). Ride it again.');
      expect(said).toContain('Next is run 2: front low-speed rebound at 10 clicks');
      // What spoiled the run is no mark against the step.
      expect(said).not.toContain('You gave a 1');
      expect(await trialOf(shop)).toMatchObject({
        ridden: [{ arm: 'reference', note: 'gusty' }],
        notes: expect.arrayContaining(['Run 2 was left out: slid once']) as string[],
      });
      await told(shop, ['plus', '5', '5', '5', '5', '']);
      expect((await trialOf(shop)).ridden).toHaveLength(2);
    });
    /** Each rated 1 to 3 points better with the step in, 2.25 in the mean. */
    const GAIN = [
      [3, 4, 4, 3],
      [5, 5, 7, 6],
      [3, 4, 3, 4],
      [6, 6, 5, 6],
    ];
    const flat = (text: string): string => text.replaceAll(/\s+/g, ' ');
    it('asks for the same runs once more where these would tell, and says so of what comes next', async () => {
      const shop = workshop();
      const { said, choices } = await rideOut(shop, GAIN, ['no']);
      expect(choices).toEqual([
        'no: ride the same runs once more (4 runs)',
        "yes, end it and keep the step, on the rider's word",
        'yes, end it without a verdict',
      ]);
      expect(flat(said)).toContain('Better so far, but not sure yet: ride the same runs once more (4 runs).');
      expect(flat(said)).not.toMatch(/won't|put (?:it|the .*) back/i);
      expect(flat(said)).toMatch(
        /Next is run 5: front low-speed rebound at 8 clicks from closed .* After it: earshot trial record --bike bike\.yaml/,
      );
      expect(await trialOf(shop)).not.toHaveProperty('verdict');
      const { next } = await shop.json('next', ...BIKE);
      expect(next.do).toContain('Ride the same runs once more (4 runs): at this rate that should tell.');
      expect(next.command).toMatch(/^earshot trial record /);
      for (const [i, marks] of GAIN.entries()) {
        const rated = ['overall', 'grip', 'calm', 'hands'].flatMap((id, f) => [
          '--rating',
          `${id}=${marks[f]}`,
        ]);
        await record(shop, '--run', i % 2 === 0 ? 'reference' : 'plus', ...rated);
      }
      expect((await judge(shop)).out).toMatch(/^Keep the front low-speed rebound at 10 clicks/);
    });
    it('asks to end it first where no more runs would tell', async () => {
      const { said, choices } = await rideOut(workshop(), [4, 4, 4, 4], ['yes']);
      expect(choices[0]).toBe('yes, end it and write that down');
      expect(said).toContain('No clear difference');
    });
    it.each([
      [
        'rated surely better',
        [2, 7, 2, 7],
        'yes',
        'Keep the front low-speed rebound at 10 clicks from closed.',
      ],
      [
        "better so far, on the rider's word",
        GAIN,
        'keep',
        "Keep the front low-speed rebound at 10 clicks from closed, on the rider's word: rated better, but not surely.",
      ],
    ])('goes on with the same step where it is better and not gone: %s', async (_, marks, end, reason) => {
      const shop = workshop();
      const { said, asked, left } = await rideOut(shop, marks, [end, 'left']);
      expect(left).toEqual([]);
      expect(asked.at(-1)).toContain('Is what bothered the rider gone?');
      expect(flat(said)).toContain(
        'The same step again: earshot trial plan --bike bike.yaml --change front.rebound.low+2',
      );
      expect(shop.sheet()).toContain('low: { clicks: 16, now: 10,');
      expect(await trialOf(shop)).toMatchObject({ verdict: 'keep' });
      const { entries } = await shop.json('log', 'history', ...BIKE);
      expect(entries.find(({ kind }: { kind: string }) => kind === 'change').reason).toBe(reason);
      expect(entries.at(-1).result).toMatchObject({ outcome: 'better', kept: true });
      // Judged once more it says what was decided, and not what the ratings alone would.
      const closed = ['--trial', 'front-rebound-low-1'];
      const { out } = await judge(shop, ...closed);
      expect(flat(out).startsWith(reason)).toBe(true);
      expect(out).toContain('already in the log (keep)');
      expect(await shop.json('trial', 'judge', ...BIKE, ...closed)).toMatchObject({
        verdict: 'keep',
        set: 10,
        says: reason,
      });
    });
    it('goes on with what was told before the sheet was made, in a case that every command takes', async () => {
      const shop = workshop();
      const has = { front: { rebound: 'two' } };
      const told = { 'trouble-end': 'front', 'hit-pattern': 'row', 'repeated-hits.trend@front': 'worse' };
      const answers = { 'safety.found': 'none', 'safety.brakes': 'good', ...told };
      shop.writeCase('told.yaml', { case: 1, id: 'told', has, answers });
      const planned = ['--case', 'told.yaml'];
      const arms = ['reference', 'plus', 'reference', 'plus'];
      const { left } = await rideOut(shop, [2, 7, 2, 7], ['yes', 'left', '^C'], arms, planned);
      expect(left).toEqual([]);
      const folder = join(shop.env['EARSHOT_HOME']!, 'interviews');
      const [next] = readdirSync(folder).filter((name) => name.endsWith('.yaml'));
      const begun = parse(readFileSync(join(folder, next!), 'utf8'));
      expect(begun).toMatchObject({ answers });
      expect(begun).not.toHaveProperty('has');
      for (const line of [
        ['diagnose'],
        ['report', '-f', 'markdown'],
        ['trial', 'plan', '--no-save', ...BIKE, '--case'],
      ])
        expect((await shop.run(...line, join(folder, next!))).err).not.toContain('has');
    });
    it('goes on the way that was kept, and not back, where of both ways the other one was better', async () => {
      const arms = ['reference', 'plus', 'minus', 'reference', 'minus', 'reference', 'plus'];
      const planned = ['--change', 'front.compression.low+2', '--both-ways'];
      const marks = [5, 1, 7, 5, 7, 5, 1];
      const { said, left } = await rideOut(workshop(), marks, ['yes', 'left'], arms, planned);
      expect(left).toEqual([]);
      expect(flat(said)).toContain('Keep the front low-speed compression at 7 clicks from closed.');
      expect(flat(said)).toContain(
        'The same step again: earshot trial plan --bike bike.yaml --change front.compression.low-2',
      );
    });
    it('says that it goes no further where the step has no room left', async () => {
      const shop = workshop();
      await shop.out('bike', 'set', 'front.rebound.low=13', ...BIKE);
      const { said } = await rideOut(shop, [2, 7, 2, 7], ['yes', 'left']);
      expect(flat(said)).toContain(
        'It goes no further that way. Find out what else it is: earshot interview --bike bike.yaml',
      );
    });
    it('says what next says where what bothered is gone', async () => {
      const shop = workshop();
      const { said } = await rideOut(shop, [2, 7, 2, 7], ['yes', 'gone']);
      expect(flat(said)).toContain(flat((await shop.json('next', ...BIKE)).next.do));
    });
    it('leaves the trial open on a no, and says how to go on, naming no trial', async () => {
      const shop = workshop();
      const { said } = await rideOut(shop, [5, 1, 5, 1], ['no']);
      expect(said).toContain('earshot trial judge --bike bike.yaml\n');
      expect(await trialOf(shop)).not.toHaveProperty('verdict');
    });
    const trialOf = async (shop: Workshop) => {
      const log = await openLog(shop.env['EARSHOT_HOME']!, 'birch', { now: () => new Date() });
      return (await log.loadTrials()).papers[0]!.data;
    };

    it('asks once whether the settings are hidden, then for each run where it stood and a feeling a question', async () => {
      const shop = workshop();
      await plan(shop);
      const { code, asked, said } = await told(shop, [
        'hidden',
        'reference',
        '5',
        '6',
        'none',
        '4',
        '1:62',
        '2 riders in the way',
        '62,5 dusty',
        'counts',
      ]);
      expect(code).toBe(0);
      expect(asked[0]).toContain('Does whoever rides it know how the bike is set');
      expect(asked[1]).toBe(
        'Trial of the front low-speed rebound, run 1: Where was the front low-speed rebound? The plan says 8 clicks from closed.',
      );
      expect(said.replaceAll('\n', ' ')).toContain('  2 riders in the way: if 2 is the time,');
      expect(said).toContain('  1:62: write seconds, 61.2, or minutes and seconds, 1:01.2.');
      expect(said.replaceAll('\n', ' ')).toContain(
        'at 8 clicks from closed; the run as a whole 5, grip 6, hands and feet 4, 62.5 s.',
      );
      const first = await trialOf(shop);
      expect(first['hidden']).toBe(true);
      expect((first['ridden'] as object[])[0]).toMatchObject({ seconds: 62.5, note: 'dusty' });
      expect(said).toMatch(/After it:\n {2}earshot trial record --bike bike\.yaml/);
      const second = await told(shop, ['plus', '5', '5', '5', '5', 'slid in the 2nd berm', 'counts']);
      expect(second.asked[0]).toContain('run 2: Where was');
      expect(((await trialOf(shop))['ridden'] as object[])[1]).toMatchObject({
        note: 'slid in the 2nd berm',
      });
    });

    it('asks back about a place that is not the planned one, and keeps the order of the places', async () => {
      const shop = workshop();
      await plan(shop);
      const slip = ['plus', 'no', 'reference', '5', '5', '5', '5', ''];
      const { asked } = await told(shop, ['hidden', ...slip]);
      expect(asked[2]).toBe(
        'The plan says 8 clicks from closed for this run.: Was it really at 10 clicks from closed?',
      );
      expect(asked[3]).toContain('Where was the front low-speed rebound?');
      expect(await trialOf(shop)).toMatchObject({ ridden: [{ arm: 'reference' }] });
      const { left } = await told(shop, ['reference', 'yes', '5', '5', '5', '5', '']);
      expect(left).toEqual([]);
      expect(await trialOf(shop)).toMatchObject({ ridden: [{ arm: 'reference' }, { arm: 'reference' }] });
    });

    it('goes back with b, from every question and every line', async () => {
      const shop = workshop();
      await plan(shop);
      const { left, said } = await told(shop, [
        'known',
        'back',
        'hidden',
        'reference',
        '2',
        'back',
        '5',
        '6',
        '3',
        'back',
        '4',
        '4',
        'b',
        '7',
        '62',
      ]);
      expect(left).toEqual([]);
      expect(said.replaceAll('\n', ' ')).toContain(
        'the run as a whole 5, grip 6, calm under me 4, hands and feet 7, 62 s.',
      );
      expect((await trialOf(shop))['hidden']).toBe(true);
    });

    it('keeps what was rated when the rider leaves, and goes on from there', async () => {
      const shop = workshop();
      await plan(shop);
      const gone = await told(shop, ['hidden', 'reference', '5', '6', '^C']);
      expect(gone.code).toBe(130);
      expect(gone.said).toMatch(/Kept what you entered\. Carry on: earshot trial record --bike bike\.yaml/);
      expect(await trialOf(shop)).toMatchObject({
        ridden: [],
        begun: { hidden: true, ratings: { overall: 5, grip: 6 } },
      });
      expect((await shop.json('next', '--bike', 'bike.yaml')).next.do).toMatch(
        /^Run 1 of trial .* in part\./,
      );
      const back = await told(shop, ['3', '2', '']);
      expect(back.asked[0]).toContain('Calm under me');
      expect(back.said.replaceAll('\n', ' ')).toContain(
        'the run as a whole 5, grip 6, calm under me 3, hands and feet 2.',
      );
      expect(await trialOf(shop)).not.toHaveProperty('begun');
      expect((await trialOf(shop))['hidden']).toBe(true);
    });

    it('takes off what was told of a run with the run before it, and says so', async () => {
      const shop = workshop();
      await plan(shop);
      await told(shop, ['hidden', 'reference', '5', '^C']);
      expect((await record(shop, '--drop-last')).out).toMatch(/^Deleted: what was entered for run 1\./);
      await told(shop, ['hidden', 'reference', '5', '5', '5', '5', '']);
      const gone = await told(shop, ['plus', '5', '1', '^C']);
      expect(gone.said).toMatch(
        /You gave a 1 with the step in\. If it scared you[^]* --close\nKept what you entered/,
      );
      expect((await record(shop, '--drop-last')).out).toMatch(
        /^Deleted: run 1, and what was entered for run 2\./,
      );
      expect(await trialOf(shop)).toMatchObject({ ridden: [] });
      expect((await told(shop, ['^C'])).asked[0]).toContain('run 1: Where was');
    });

    it('asks about a time that is more likely a slip, and tells of one given by options', async () => {
      const shop = workshop();
      await plan(shop);
      const { asked, left } = await told(shop, [
        ...['hidden', 'reference', '5', '5', '5', '5'],
        ...['45445, slid', 'no', '45.4, slid', 'counts'],
      ]);
      expect(left).toEqual([]);
      expect(asked).toContain('That is 12 h 37 min.: Did this run take 45445 s?');
      expect(await trialOf(shop)).toMatchObject({ ridden: [{ seconds: 45.4, note: 'slid' }] });
      const { err } = await record(shop, '--rating', 'grip=5', '--time', '451');
      expect(err).toBe('Check the time: 451 is 7 min 31 s, and the other runs took about 45.4 s.\n');
      expect((await record(shop, '--run', '1', '--rating', 'grip=5', '--time', '440')).err).toBe('');
    });

    it('writes nothing down when nothing was said', async () => {
      const shop = workshop();
      await plan(shop);
      const { code, said } = await told(shop, ['^C']);
      expect(code).toBe(130);
      expect(said).toContain('Nothing was recorded');
      expect(await trialOf(shop)).not.toHaveProperty('begun');
    });
  });

  it('says for the whole trial whether the rider knew the settings', async () => {
    const shop = workshop();
    await plan(shop);
    expect((await record(shop, '--rating', 'grip=4', '--hidden', '--known')).err).toContain(
      'Give --hidden or --known, not both',
    );
    await ride(shop, { reference: 3, plus: 6 });
    const first = ['overall', 'grip', 'calm', 'hands'].flatMap((id) => ['--rating', `${id}=3`]);
    const grounds = async (flag: string): Promise<string> => {
      await record(shop, '--run', '1', ...first, flag);
      const { out } = await shop.run('trial', 'judge', ...BIKE, '--format', 'json');
      return JSON.parse(out).grounds.join(' ');
    };
    const log = await openLog(shop.env['EARSHOT_HOME']!, 'birch', { now: () => new Date() });
    const open = (await log.loadTrials()).papers[0]!.data;
    expect(await grounds('--known')).toContain('The rider knew the settings');
    await log.saveTrial(open['id'] as string, () => open);
    expect(await grounds('--hidden')).not.toContain('settings');
  });
});

describe('trial judge', () => {
  it('says how many runs are missing before anything was ridden', async () => {
    const shop = workshop();
    await plan(shop);
    const { code, out } = await judge(shop);
    expect(code).toBe(0);
    expect(out).toMatch(/^Can't tell yet\./);
    expect(out).toContain('Ride 7 more runs');
  });

  it('only looks while planned runs are left', async () => {
    const shop = workshop();
    await plan(shop);
    const rated: Record<string, number> = { reference: 3, plus: 6 };
    for (const run of ['reference', 'reference', 'plus', 'reference', 'plus', 'plus'])
      await record(
        shop,
        '--run',
        run,
        ...['overall', 'grip', 'calm'].flatMap((id) => ['--rating', `${id}=${rated[run]}`]),
      );
    const before = shop.sheet();
    expect((await judge(shop)).out).toMatch(
      /^Better so far, but not sure yet\..*Ride 1 more run to finish this round/s,
    );
    expect(shop.sheet()).toBe(before);
  });

  it('cannot tell when the ratings say little, and closes when told to, back at the reference', async () => {
    const shop = workshop();
    const before = shop.sheet();
    await plan(shop);
    for (const rating of [4, 5, 4, 4, 4, 4, 5])
      await record(shop, '--rating', `overall=${rating}`, '--hidden');
    const { verdict } = await shop.json('trial', 'judge', ...BIKE);
    expect(verdict).toBe('cannot-tell');
    const { out } = await judge(shop, '--close');
    expect(out).toMatch(
      /^Can't tell: the ratings scatter too much.*Put the front low-speed rebound back to 8 clicks/s,
    );
    expect(out).not.toContain('should tell');
    expect(out).toContain('Written into the log');
    expect(shop.sheet()).toBe(before);
    expect((await record(shop, '--rating', 'grip=4')).err).toContain('No trial is open');
    expect((await judge(shop, '--trial', 'front-rebound-low-1')).out).toContain('already');
  });

  it("keeps a step on the rider's word with --keep where it leans to better, and nowhere else", async () => {
    const ridden = async (ratings: readonly number[]) => {
      const shop = workshop();
      await plan(shop);
      for (const [i, rating] of ratings.entries())
        await record(
          shop,
          '--run',
          i % 2 === 0 ? 'reference' : 'plus',
          '--rating',
          `overall=${rating}`,
          '--known',
        );
      return shop;
    };
    const leaning = await ridden([4, 5, 4, 5]);
    const before = leaning.sheet();
    const { out } = await judge(leaning, '--keep');
    expect(out).toMatch(/^Keep the front low-speed rebound at 10 clicks/);
    expect(out).toContain('The bike sheet now says front low-speed rebound 10');
    const equal = await ridden([4, 4, 4, 4]);
    const refused = await judge(equal, '--keep');
    expect(refused.code).toBe(2);
    expect(refused.err).toContain('--keep is for a step that was rated better, but not surely.');
    expect(equal.sheet()).toBe(before);
  });

  it('judged again after it was cut short, writes only what is missing', async () => {
    const shop = workshop();
    await plan(shop);
    await ride(shop, { reference: 3, plus: 6, minus: 2 });
    const log = await openLog(shop.env['EARSHOT_HOME']!, 'birch', { now: () => new Date() });
    const [open] = (await log.loadTrials()).papers;
    expect((await judge(shop)).out).toContain('The bike sheet now says front low-speed rebound 10 clicks');
    const { entries } = await log.readHistory();
    await log.saveTrial(open!.id, () => open!.data);
    await judge(shop);
    expect((await log.readHistory()).entries).toEqual(entries);
    expect((await log.loadTrials()).papers[0]!.data['verdict']).toBeDefined();
  });
});

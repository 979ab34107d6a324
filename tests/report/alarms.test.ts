/** What must be checked before riding stands in every printed form, first, in the words of the text. */
import { describe, expect, it } from 'vitest';
import { PLAIN } from '../../src/report/style.ts';
import { planScreen } from '../../src/report/bike/trial-text.ts';
import { workshop } from '../story/place.ts';
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

describe.each([['mechanic'], ['rider']])('the reasons, for a %s,', (who) => {
  // The fewer answers, the fewer strengths to move for the last lines of the reasons.
  const FEW = { ...SAID, answers: { 'safety.brakes': 'good', complaint: 'rows' } };
  const told = async (command: string, kase: object): Promise<string> =>
    (await earshot([command, '-', '--for', who], { stdin: JSON.stringify(kase) })).out;
  const STOPPED = { ...FEW, answers: { ...FEW.answers, 'safety.found': 'leak' } };

  it('begin with STOP, in the words of the diagnosis', async () => {
    const [name, head] = (await told('diagnose', STOPPED)).split('\n\n') as [string, string];
    expect(head).toMatch(/^STOP: do not ride this bike\n/);
    const lead = head.split('\nMore: ')[0]!;
    expect((await told('explain', STOPPED)).startsWith(`${name}\n\n${lead}\n\n`)).toBe(true);
    const asked = ['explain', '-', '--format', 'json'];
    const { out } = await earshot(asked, { stdin: JSON.stringify(STOPPED) });
    expect(JSON.parse(out)).toMatchObject({ verdict: 'stop' });
  });

  it('begin with what must be checked before riding', async () => {
    const [lead] = (await told('diagnose', FEW)).split('\n\n') as [string];
    expect(lead).toContain('! Check before riding: "leaks" was said.');
    expect((await told('explain', FEW)).startsWith(`${lead}\n\n`)).toBe(true);
    const checked = await told('explain', { ...FEW, answers: { ...FEW.answers, 'safety.found': 'none' } });
    expect(checked).not.toContain('Check before riding');
  });
});

describe('a trial of the first change of a case', () => {
  const LEAKS = {
    case: 1,
    id: 'leaks',
    bike: 'bike.yaml',
    said: 'the fork chatters and leaks oil',
    answers: {
      complaint: 'chatter',
      'chatter@front': 'through',
      'chatter-start@front': 'first',
      'stiction@front': 'easy',
      'tyre-pressure@front': 'over',
    },
  };
  const PLAN = ['trial', 'plan', '--bike', 'bike.yaml', '--case', 'case.yaml'];
  const ALARM =
    'Check before riding: "fork chatters and leaks oil" was said. Anything loose, leaking, cracked, stuck down, or without damping? Or crashed, and not looked over since? Rock it with the front brake held, and push each wheel sideways at its top.';

  it('has what must be checked before riding as its first caution: on paper, as data and on a screen', async () => {
    const shop = workshop();
    shop.writeCase('case.yaml', LEAKS);
    const paper = flat(await shop.out(...PLAN, '--no-save'));
    expect(paper).toContain(`Cautions ! ${ALARM} !`);
    const { trial, sheet } = await shop.json(...PLAN);
    expect([trial.cautions[0], sheet.cautions[0]]).toEqual([ALARM, ALARM]);
    const of = { name: 'front tyre', bike: 'the birch bike', usual: new Set<string>() };
    expect(flat(planScreen(trial, sheet, of, PLAIN))).toContain(`! ${ALARM} !`);
  });

  it.each([
    ['asks the open safety question where no words told of a danger', undefined, {}, true],
    [
      'asks nothing where nothing was found and the brakes are good',
      LEAKS.said,
      { 'safety.found': 'none' },
      false,
    ],
  ])('%s', async (_, said, answers, asks) => {
    const shop = workshop();
    const { said: __, ...silent } = LEAKS;
    shop.writeCase('case.yaml', {
      ...silent,
      ...(said === undefined ? {} : { said }),
      answers: { ...LEAKS.answers, 'safety.brakes': 'good', ...answers },
    });
    const paper = flat(await shop.out(...PLAN, '--no-save'));
    expect(paper.includes('Check before riding: ')).toBe(asks);
    expect(paper.includes('without damping?')).toBe(asks);
  });

  it('is planned of no case that says STOP, and nothing is kept', async () => {
    const shop = workshop();
    shop.writeCase('case.yaml', { ...LEAKS, answers: { ...LEAKS.answers, 'safety.found': 'leak' } });
    const { code, out, err } = await shop.run(...PLAN);
    expect([code, out]).toEqual([2, '']);
    expect(err).toContain('Do not ride this bike');
    expect((await shop.run('trial', 'plan', '--bike', 'bike.yaml', '--change', 'front.tyre-2psi')).code).toBe(
      0,
    );
  });
});

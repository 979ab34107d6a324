/** What must stand on the few lines that are read at the bike. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { stringify } from 'yaml';
import { workshop, type Workshop } from './place.ts';

const BIKE = ['--bike', 'bike.yaml'] as const;
const SAFE = { 'safety.found': 'none', 'safety.brakes': 'good' };
const KICKS = {
  ...SAFE,
  complaint: 'air',
  'hit-pattern': 'one',
  'lone-hit.kick@rear': 'kicks',
  'return-speed@rear': 'deep',
};
const flat = (text: string): string => text.replaceAll(/\s+/g, ' ');
const told = async (shop: Workshop, data: object, ...more: string[]): Promise<string> => {
  shop.writeCase('case.yaml', { case: 1, id: 'c', ...data });
  return flat(await shop.out('diagnose', 'case.yaml', ...more));
};

describe('a bike without a compression knob', () => {
  it('is sent to look at none, and asked about none', async () => {
    const answers = { ...KICKS, 'comp-place@front': 'cannot-tell', 'comp-place@rear': 'cannot-tell' };
    const assigned = async (without: boolean): Promise<readonly string[]> => {
      const shop = workshop();
      if (without) await shop.out('bike', 'set', ...BIKE, 'front.compression=none', 'rear.compression=none');
      shop.writeCase('case.yaml', { case: 1, id: 'c', answers });
      const [result] = await shop.json('diagnose', 'case.yaml', ...BIKE);
      const asked = result.assignments.map((a: { readonly question: string }) => a.question);
      return [...asked, result.next?.question].filter((id) => id?.startsWith('comp-'));
    };
    expect(await assigned(false)).not.toEqual([]);
    expect(await assigned(true)).toEqual([]);
  });
});

it('sends a rider of a hardtail to look at no rear suspension', async () => {
  const assigned = async (has: object): Promise<readonly string[]> => {
    const shop = workshop();
    const answers = {
      ...SAFE,
      complaint: 'arms',
      'last-set@rear': 'cannot-tell',
      'bottoming@rear': 'cannot-tell',
    };
    shop.writeCase('case.yaml', { case: 1, id: 'c', ...has, answers });
    const [result] = await shop.json('diagnose', 'case.yaml');
    return result.assignments.map((a: { readonly question: string }) => a.question);
  };
  expect(await assigned({})).toContain('last-set@rear');
  expect(await assigned({ has: { kind: 'hardtail' } })).not.toContain('last-set@rear');
});

describe('a card', () => {
  it('sends numb fingers to the levers and to a medical professional, whatever else is advised', async () => {
    const numb = 'Check the reach of the levers and the grips. Numbness or pain that lasts';
    const answers = { ...KICKS, hands: 'numb' };
    const said = await told(workshop(), { answers }, ...BIKE);
    expect(said).toContain('Close the rear high-speed rebound');
    expect(said).toContain(numb);
    expect(await told(workshop(), { answers: KICKS }, ...BIKE)).not.toContain(numb);
    expect(await told(workshop(), { answers: { hands: ['palms', 'numb'] } })).toContain(numb);
  });

  it('warns first of the direction that is moved to', async () => {
    const said = await told(workshop(), { answers: KICKS }, ...BIKE);
    expect(said).toContain('Close the rear high-speed rebound');
    expect(said).toContain('! With rebound closed too far, the rear packs down');
    expect(said.indexOf('With rebound closed too far')).toBeLessThan(
      said.indexOf('A rear that rebounds too fast'),
    );
  });

  it('says what is left where the step that looks best was ridden and rated worse', async () => {
    const answers = {
      ...SAFE,
      'kerb-drop@rear': 'bounces',
      'push-return@rear': 'springs',
      'liveliness@rear': 'nervous',
      'landing@rear': 'bounced',
    };
    const shop = workshop();
    shop.writeCase('case.yaml', { case: 1, id: 'c', answers });
    const [first] = await shop.json('diagnose', 'case.yaml', ...BIKE);
    const { change } = first.adjustments[0];
    expect(change).toMatch(/-[23]$/);
    const how = { outcome: 'worse', kept: false, points: -0.6, error: 0.5, date: '2026-05-04' };
    const said = await told(shop, { answers, results: [{ change, ...how }] }, ...BIKE);
    expect(said).toContain(
      'it was tested on 2026-05-04 and rated worse; a smaller step of 1 click was not tested',
    );
    expect(said).toMatch(/To find out: [A-Z][^?]+\?/);
    const less = change.replace(/[23]$/, '1');
    // The trial of it is not only offered by the interview.
    const { code, err } = await shop.run('trial', 'plan', ...BIKE, '--case', 'case.yaml');
    expect(code).toBe(2);
    const [line] = /earshot trial plan .*$/m.exec(err)!;
    expect(line).toBe(`earshot trial plan --bike bike.yaml --case case.yaml --change ${less}`);
    expect(await shop.out(...line.split(' ').slice(1), '--no-save')).toContain('1 click in');
    const unclear = { ...how, change: less, outcome: 'same', points: 0.1, error: 2 };
    const tried = [{ change: less, result: 'not-sure', 'put-back': 'yes' }];
    for (const more of [{ results: [unclear, { change, ...how }] }, { results: [{ change, ...how }], tried }])
      expect(await told(shop, { answers, ...more }, ...BIKE)).toMatch(
        /2026-05-04 and rated worse(?!; a smaller step)/,
      );
  });

  it('keeps speaking to the rider it spoke to', async () => {
    for (const [whom, ending] of [
      ['rider', / --for rider$/],
      ['mechanic', /bike\.yaml$/],
    ] as const) {
      const shop = workshop();
      const folder = join(shop.env['EARSHOT_HOME']!, 'interviews');
      mkdirSync(folder, { recursive: true });
      const interview = { finished: true, ...(whom === 'rider' ? { for: whom } : {}) };
      const bike = join(shop.folder, 'bike.yaml');
      const answers = { ...SAFE, complaint: 'nothing' };
      writeFileSync(join(folder, 'told.yaml'), stringify({ case: 1, id: 'told', bike, answers, interview }));
      const { next } = await shop.json('next', ...BIKE);
      expect(next.command).toMatch(/^earshot interview --bike/);
      expect(next.command).toMatch(ending);
    }
  });
});

describe('what was tried in vain and left on the bike', () => {
  it('goes back before the trial of the first step, on its sheet and in what is next', async () => {
    const shop = workshop();
    const data = {
      case: 1,
      id: 'dives',
      bike: join(shop.folder, 'bike.yaml'),
      tried: [
        {
          setting: 'front.ramp-up',
          direction: 'more',
          by: 1,
          unit: 'spacers',
          result: 'same',
          'put-back': 'no',
        },
      ],
      answers: {
        ...SAFE,
        'run-trend': 'same',
        'brake-fade': 'no',
        weather: 'any',
        'brake-dive': 'dives',
        'when-loaded': 'braking',
        'travel-part@front': 'soggy',
        'ride-height@front': 'low',
        'liveliness@front': 'mushy',
        'deep-travel@front': 'wall',
        'spacers@front': 'more',
        'travel-ring@front': 'a-little',
      },
      interview: { finished: true },
    };
    const folder = join(shop.env['EARSHOT_HOME']!, 'interviews');
    mkdirSync(folder, { recursive: true });
    writeFileSync(join(folder, 'dives.yaml'), stringify(data));
    const back = 'front end-stroke ramp-up, 1 spacer less';
    const next = flat(await shop.out('next', ...BIKE));
    expect(next).toMatch(
      new RegExp(
        `Put back what was tried and left in: ${back}.* Then: Close the front low-speed compression`,
      ),
    );
    const file = join(folder, 'dives.yaml');
    const sheet = flat(await shop.out('trial', 'plan', ...BIKE, '--case', file, '--paper', '--no-save'));
    expect(sheet).toContain(`Before the first run: Put back what was tried and left in: ${back}`);
    expect(sheet).toContain('let all air out slowly');
    const other = flat(
      await shop.out('trial', 'plan', ...BIKE, '--case', file, '--change', 'rear.tyre+2psi', '--no-save'),
    );
    expect(other).not.toContain('Before the first run');
  });
});

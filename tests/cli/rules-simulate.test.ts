import { describe, expect, it } from 'vitest';
import { earshot } from '../support/io.ts';

const simulate = (...flags: string[]) =>
  earshot(['rules', 'simulate', '--riders', '7', '--most', '6', ...flags]);
let plain: ReturnType<typeof simulate> | undefined;

describe('earshot rules simulate', () => {
  it('is the same for the same seed, and another for another', async () => {
    const one = await simulate('--seed', '3');
    expect(one).toMatchObject({ code: 0, err: '' });
    expect(await simulate('--seed', '3')).toEqual(one);
    expect((await simulate('--seed', '4')).out).not.toBe(one.out);
  });
  it.each([
    [['--slips', '0.2'], 'slips 0.2'],
    [['--misread', '0.3'], 'misread 0.3'],
    [['--cannot-tell', '0.4'], 'cannotTell 0.4'],
    [['--topic-wrong', '0.3'], 'topicWrong 0.3'],
    [['--end-mixed-up', '0.5'], 'endMixedUp 0.5'],
    [['--echoes', '0.5'], 'echoes 0.5'],
    [['--twice'], 'every question told twice'],
  ])('says how the riders answer, and lets them answer so: %s', async (flags, said) => {
    const [one, other] = [await (plain ??= simulate()), await simulate(...flags)];
    const [head, ...table] = other.out.split('\n');
    expect(head).toContain(said);
    expect(table).not.toEqual(one.out.split('\n').slice(1));
  });
  it('gives rates between 0 and 1 as data, a row for each number of causes and one for all', async () => {
    const { out } = await simulate('--format', 'json', '--compare');
    const rows = (
      JSON.parse(out) as {
        results: { order: string; count: number | 'all'; score: { top1: number; top3: number } }[];
      }
    ).results;
    for (const order of ['gain', 'fixed', 'random'])
      expect(rows.filter((r) => r.order === order).map((r) => r.count)).toEqual([0, 1, 2, 3, 'all']);
    for (const { score } of rows) {
      expect(score.top1).toBeGreaterThanOrEqual(0);
      expect(score.top3).toBeGreaterThanOrEqual(score.top1);
      expect(score.top3).toBeLessThanOrEqual(1);
    }
  });
});

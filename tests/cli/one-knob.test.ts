/** A bike with one rebound knob: no line of any command speaks of two. */
import { describe, expect, it } from 'vitest';
import { workshop } from '../story/place.ts';

const BIKE = ['--bike', 'bike.yaml'];
const CASE = {
  case: 1,
  id: 'c',
  answers: { 'trouble-end': 'rear', 'hit-pattern': 'row', 'repeated-hits.trend@rear': 'worse' },
};

describe('the rebound knob of a bike with one', () => {
  it.each([
    ['bike', 'show', 'bike.yaml'],
    ['bike', 'check', 'bike.yaml'],
    ['log', 'change', ...BIKE, 'rear.rebound.low+2'],
    ['log', 'start', ...BIKE],
    ['trial', 'plan', '--long', ...BIKE, '--change', 'rear.rebound.low+2'],
    ['diagnose', 'case.yaml', ...BIKE],
    ['report', 'case.yaml', ...BIKE, '--format', 'markdown'],
  ])('is called no circuit by: %s %s', async (...line) => {
    const shop = workshop('few-knobs');
    shop.writeCase('case.yaml', CASE);
    const { out } = await shop.run(...line);
    expect(out).toMatch(/rebound/i);
    expect(out).not.toMatch(/(?:low|high)-speed rebound|rebound, (?:low|high) speed/i);
  });
  it('is called so in the log, the diff and by next, after a change and a run', async () => {
    const shop = workshop('few-knobs');
    await shop.out('log', 'change', ...BIKE, 'rear.rebound.low+2');
    await shop.out('trial', 'plan', '--long', ...BIKE, '--change', 'front.rebound.low+2');
    const record = await shop.out('trial', 'record', ...BIKE, '--rating', 'overall=4');
    const judged = await shop.out('trial', 'judge', ...BIKE);
    const lines = [
      record,
      judged,
      await shop.out('log', ...BIKE),
      await shop.out('log', 'diff', ...BIKE, '2026-05-01'),
      await shop.out('next', ...BIKE),
    ];
    for (const said of lines) expect(said).not.toMatch(/(?:low|high)-speed rebound/);
    expect(lines.join('')).toMatch(/rear rebound 0 → 2 clicks/);
  });
});

describe('what a rider alone is told, of a bike with one rebound knob an end', () => {
  it.each([
    ['diagnose', 'case.yaml', '--full'],
    ['diagnose', 'case.yaml', '--format', 'markdown'],
    ['report', 'case.yaml', '--format', 'markdown'],
    ['report', 'case.yaml'],
  ])('is plain: %s %s %s %s', async (...line) => {
    const shop = workshop('few-knobs');
    shop.writeCase('case.yaml', CASE);
    const { out } = await shop.run(...line, ...BIKE, '--for', 'rider');
    expect(out).toMatch(/Turn the rear rebound knob anticlockwise/);
    // No circuits, no numbers out of the model, no ids.
    expect(out).not.toMatch(/(?:low|high)-speed rebound|Side effect|repeated-hits\.trend/);
  });
  it('says where the knob usually is', async () => {
    const shop = workshop('few-knobs');
    shop.writeCase('case.yaml', CASE);
    const said = await shop.out('diagnose', 'case.yaml', ...BIKE, '--for', 'rider');
    expect(said.replaceAll(/\s+/g, ' ')).toContain('The knob is usually on the shock');
    expect(await shop.out('diagnose', 'case.yaml', ...BIKE)).not.toContain('usually on the shock');
  });
  it('has no id in explain either', async () => {
    const shop = workshop('few-knobs');
    shop.writeCase('case.yaml', CASE);
    const said = await shop.out('explain', 'case.yaml', ...BIKE, '--for', 'rider');
    expect(said).not.toMatch(/rear\.rebound|repeated-hits|low-speed/);
    expect(said).toContain('the rear comes back too slowly');
  });
});

/** Preload brings any sag right, and leaves a coil as soft as it is: what the sheet says of it, and what is advised. */
import { describe, expect, it } from 'vitest';
import { physicsOf } from '../../src/advice/physics.ts';
import { prepareBike, type PreparedBike } from '../../src/advice/prepared-bike.ts';
import { readSheet } from '../../src/bike/form/read.ts';
import { consult } from '../../src/casework/consult.ts';
import { bikeFromSheet } from '../../src/physics/index.ts';
import { springStart } from '../../src/physics/start-spring.ts';
import type { Result } from '../../src/report/result/result.ts';
import { toResult } from '../../src/report/result/to-result.ts';
import { evidenceText } from '../../src/report/evidence-words.ts';
import { withValue } from '../bike/example.ts';
import { caseOf, model, SOUND } from '../support/told.ts';

/** Travel over stroke is the same all the way, so the springs can be worked out by hand. */
function sheetWith(preload: number, more: Record<string, unknown> = {}, sag = '30%') {
  const data = withValue('rear.spring', {
    kind: 'coil',
    rate: '80 N/mm',
    preload: `${preload} mm`,
    'preload-per-turn': '1 mm',
    ...more,
  }) as Record<string, Record<string, unknown>>;
  Object.assign(data['rear']!, { stroke: '60 mm', travel: '150 mm', leverage: [2.5, 2.5, 2.5] });
  data['rear']!['sag'] = { measured: sag, wanted: '30%' };
  return readSheet(data).sheet!;
}

const benchOf = (sheet: ReturnType<typeof sheetWith>): PreparedBike =>
  prepareBike(model, sheet, physicsOf(bikeFromSheet(sheet), sheet));

function told(bench: PreparedBike, answers: Record<string, string>): Result {
  const kase = caseOf({ ...SOUND, ...answers });
  return toResult(model, kase, consult(model, bench, kase, { next: true, explain: 3, fit: false }));
}

const soft = (r: Result): number =>
  r.causes.find(({ id }) => id === 'rear.spring.too-soft')?.probability ?? 0;
const BANGS = { complaint: 'bottoming', 'bottoming@rear': 'hard', 'sag@rear': 'target' };

describe('more preload than a coil should have, with sag on target', () => {
  const hidden = told(benchOf(sheetWith(6, { 'preload-max': '2 mm' })), BANGS);

  it('is a coil too soft, and the step is the coil', () => {
    expect(hidden.causes[0]!.id).toBe('rear.spring.too-soft');
    expect(hidden.first).toBe('rear.spring.heavier-coil');
    // 80 N/mm on 6 mm and 18 mm of shaft carry 1920 N; with a turn of preload that takes 1920 / 19 = 101 N/mm.
    expect(hidden.adjustments[0]!.note).toMatch(/coil of about 10[01] N\/mm with 1 mm of preload.*now 6 mm/);
  });

  it('is told in words, not only in a number', () => {
    const own = hidden.causes[0]!.evidence.find(({ question }) => question === 'bike.rear.spring')!;
    expect(evidenceText(model.rules, own, 'rider')).toBe(
      'Bike sheet: rear spring: too much preload holds it up; without that, sag 7 points over the target',
    );
  });

  it('is beyond the usual where the maker says nothing, and the same where nobody measured sag', () => {
    expect(told(benchOf(sheetWith(7)), BANGS).first).toBe('rear.spring.heavier-coil');
    const data = sheetWith(7);
    const { sagMeasured: _, ...rear } = data.ends.rear;
    const unread = benchOf({ ...data, ends: { ...data.ends, rear } });
    expect(soft(told(unread, BANGS))).toBeGreaterThan(0.5);
  });

  it('does not stand where the preload is what it should be', () => {
    for (const preload of [0.5, 1, 2])
      expect(soft(told(benchOf(sheetWith(preload, { 'preload-max': '2 mm' })), BANGS))).toBeLessThan(0.2);
  });

  it('leaves no sag to ask for', () => {
    const open = told(benchOf(sheetWith(6, { 'preload-max': '2 mm' })), { complaint: 'bottoming' });
    expect(open.next?.question).not.toBe('sag@rear');
    expect(open.first).not.toBe('rear.sag.measure');
  });
});

describe('the coil to begin with', () => {
  it.each([
    [6, 1920 / 19],
    [2, 1600 / 19],
    [1, 80],
  ])('is worked out with %d mm of preload counted, not kept', (preload, rate) => {
    const sheet = sheetWith(preload);
    const start = springStart(sheet, bikeFromSheet(sheet), 'rear');
    expect(start.model / 1000).toBeCloseTo(rate, 3);
  });
});

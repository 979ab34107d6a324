/** A bike without a rear suspension: no rear setting but the tyre, and nothing of it suspected. */
import { describe, expect, it } from 'vitest';
import { prepareBike } from '../../src/advice/prepared-bike.ts';
import { applyChanges } from '../../src/bike/apply.ts';
import { parseChange } from '../../src/bike/change.ts';
import { sheetFact } from '../../src/bike/facts.ts';
import { newSteps } from '../../src/bike/form/new-steps.ts';
import { readSheet } from '../../src/bike/form/read.ts';
import { rowsOf } from '../../src/bike/settings.ts';
import { BIKE_KINDS } from '../../src/bike/sheet.ts';
import { standsOf } from '../../src/bike/setting-values.ts';
import { writeSheet } from '../../src/bike/form/write.ts';
import { hear } from '../../src/casework/evidence.ts';
import { update } from '../../src/diagnosis/belief.ts';
import { isSuspension } from '../../src/rulebase/compiled.ts';
import { baseModel, baseRules } from '../support/base-rules.ts';

const front = { travel: 120, spring: { kind: 'air', pressure: 70 }, rebound: { clicks: 20, now: 9 } };
const data = (rear?: object) => ({ bike: 1, id: 'ht', kind: 'hardtail', front, ...(rear && { rear }) });
const read = (rear?: object) => readSheet(data(rear));
const sheet = read({ tyre: { now: '30 psi' } }).sheet!;

describe('a hardtail', () => {
  it('has a rear tyre, or says nothing of its rear, and is written as it was read', () => {
    expect(read().problems).toEqual([]);
    expect(writeSheet(sheet)).toMatchObject({ kind: 'hardtail', rear: { tyre: { now: 30 } } });
    expect(readSheet(writeSheet(sheet)).sheet).toEqual(sheet);
    expect(readSheet(writeSheet(read().sheet!)).sheet).toEqual(read().sheet);
  });
  it.each([
    ['travel', 100],
    ['spring', { kind: 'air' }],
    ['sag', {}],
    ['travel-used', '80%'],
    ['rebound', {}],
    ['compression', {}],
    ['stroke', 50],
    ['leverage', [3, 2.7, 2.4]],
  ])('has no rear %s: a sheet with one is told so', (key, value) => {
    const { sheet: none, problems } = read({ [key]: value });
    expect(none).toBeUndefined();
    expect(problems.map((p) => `${p.path.join('.')}: ${p.message}`)).toEqual([
      `rear.${key}: rear: a hardtail has no rear suspension, so it has no ${key} there.`,
    ]);
    expect(read({ [key]: 'none' }).problems).toEqual([]);
  });
  it('has every rear setting but the tyre refused with one clear line', () => {
    const refused = rowsOf()
      .filter((row) => row.end === 'rear' && row.units.length > 0)
      .map(({ setting, units }) => {
        const text = `${setting}+1${units[0] === 'clicks' || units[0] === 'spacers' ? '' : units[0]}`;
        return [
          setting,
          applyChanges(sheet, parseChange(text).changes).problems.map((p) => p.message),
        ] as const;
      });
    for (const [setting, messages] of refused)
      expect(messages).toEqual(
        setting === 'rear.tyre' ? [] : [expect.stringMatching(/^A hardtail has no rear suspension, so /)],
      );
  });
  it('says so to gates, stands nowhere at the rear but with its tyre, and is asked nothing else', () => {
    expect(sheetFact(sheet, 'rear.spring')).toBe('none');
    expect(sheetFact(sheet, 'front.spring')).toBe('air');
    expect(
      standsOf(sheet)
        .map((s) => s.setting)
        .filter((s) => s.startsWith('rear')),
    ).toEqual(['rear.tyre']);
    const asked = newSteps({ kind: 'hardtail' }).map((step) => step.path);
    expect(asked.filter((path) => path.startsWith('rear.'))).toEqual(['rear.tyre.now', 'rear.tyre.wanted']);
  });

  const { rules } = baseRules();
  const model = baseModel();
  const bench = prepareBike(model, readSheet(data(), rules.adjusters).sheet);
  it('is never suspected of what it lacks, whatever is answered', () => {
    const told = hear(
      model,
      [
        { question: 'trouble-end', answer: 'rear', sure: 'sure' },
        { question: 'lone-hit.kick@rear', answer: 'kicks', sure: 'sure' },
      ],
      bench.fact,
    );
    const { causes } = update(model, bench.prior, told.evidence);
    const absent = rules.causes.flatMap((cause, i) => {
      const setting = rules.settings[cause.setting]!;
      return setting.end === 'rear' && isSuspension(setting) ? [causes[i]!] : [];
    });
    expect(absent.length).toBeGreaterThan(8);
    expect(Math.max(...absent)).toBeLessThan(1e-6);
  });
  it('has answers about its rear suspension set aside, with the reason', () => {
    const told = hear(model, [{ question: 'sag@rear', answer: 'more', sure: 'sure' }], bench.fact);
    expect(told.contradictions).toEqual([{ question: 'sag@rear', against: 'rear.spring', value: 'none' }]);
    expect(told.evidence).toEqual([]);
  });
  it('leaves no adjustment of its rear suspension possible, and its front ones as they were', () => {
    const possible = rules.adjustments.flatMap((a, i) => (bench.possible[i]!.can ? [a] : []));
    const turned = possible.map((a) => a.change?.setting ?? '');
    expect(turned.filter((s) => s.startsWith('rear.')).every((s) => s === 'rear.tyre')).toBe(true);
    expect(turned).toEqual(expect.arrayContaining(['front.rebound.low', 'front.spring', 'rear.tyre']));
  });
});

describe('an end with a coil', () => {
  it('is never suspected of what is wrong with an air spring', () => {
    const model = baseModel();
    const rear = { travel: 110, spring: { kind: 'coil' } };
    const { prior } = prepareBike(model, readSheet({ bike: 1, id: 'x', kind: 'trail', front, rear }).sheet);
    const { causes } = update(model, prior, [
      { question: model.questionIndex.get('sag@rear')!, answer: 2, sure: 1 },
    ]);
    const at = (id: string): number => causes[model.causeIndex.get(id)!]!;
    expect(at('rear.air-spring.leaking')).toBeLessThan(1e-6);
    expect(at('rear.spring.too-soft')).toBeGreaterThan(0.5);
    expect(at('front.air-spring.leaking')).toBeGreaterThan(1e-3);
  });
});

describe('every other kind of bike', () => {
  it.each(BIKE_KINDS.filter((kind) => kind !== 'hardtail'))('%s has two suspended ends', (kind) => {
    const rear = { travel: 110, spring: { kind: 'air' } };
    expect(readSheet({ bike: 1, id: 'x', kind, front, rear }).problems).toEqual([]);
    expect(readSheet({ bike: 1, id: 'x', kind, front }).problems[0]!.message).toContain('rear');
  });
});

describe('how sag was measured', () => {
  const model = baseModel();
  const findings = (basis: object) => {
    const sag = { measured: '40%', wanted: '28%', ...basis };
    const rear = { travel: 130, spring: { kind: 'air' }, sag };
    return prepareBike(model, readSheet({ bike: 1, id: 'x', kind: 'trail', front, rear }).sheet).findings;
  };
  it.each([
    [{}, 1],
    [{ rider: 'standing', kit: 'with', lever: 'open' }, 1],
    [{ lever: 'closed' }, 0],
    [{ kit: 'without' }, 0],
  ])('decides whether it counts: %j', (basis, count) => {
    expect(findings(basis).filter((f) => f.reads === 'sag')).toHaveLength(count);
  });
});

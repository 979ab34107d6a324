/** Of which end a repair is named behind a danger: one that both ends have, and one that only one end can have. */
import { describe, expect, it } from 'vitest';
import { advise } from '../../src/advice/advise.ts';
import { prepareBike } from '../../src/advice/prepared-bike.ts';
import { buildModel } from '../../src/diagnosis/model.ts';
import { rulesOf } from '../support/compile-text.ts';
import { believing } from '../support/front-rules.ts';

const RULES = `
settings:
  - id: '{end}.seals'
    for: [front, rear]
    name: '{end} seals'
    plain: '{end} seals'
    kind: condition
    directions: { worn: { name: worn, plain: worn, prior: sometimes } }
  - id: front.legs
    name: legs
    plain: legs
    kind: condition
    directions: { full: { name: full, plain: full, prior: sometimes } }
questions:
  - id: found
    ask: Found?
    plain: Found?
    help: Look.
    how: stand
    minutes: 1
    topic: found
    safety: true
    dangerous: { seals: loose, legs: loose }
    answers: { none: none, seals: seals, legs: legs }
    default: none
    when-several: cancel
    usually: { seals: rarely, legs: rarely }
    points-to:
      seals: { front.seals.worn: often, rear.seals.worn: often }
      legs: { front.legs.full: often, rear.seals.worn: often }
    confusable-with: [{ id: front.seals.worn, tell: look }]
adjustments:
  - id: '{end}.seals.service'
    for: [front, rear]
    do: service
    plain: service
    kind: repair
    minutes: 90
    way-back: undo it
    feel: whether it helps
    cautions: []
    fixes: { '{end}.seals.worn': 1 }
  - id: legs.vent
    for: [front]
    do: vent
    plain: vent
    kind: repair
    minutes: 1
    way-back: undo it
    feel: whether it helps
    cautions: []
    fixes: { front.legs.full: 1 }
cautions:
  - { id: loose, level: stop, text: Do not ride it., show: with }
`;

const model = buildModel(rulesOf({ 'a.yaml': RULES }));
const bench = prepareBike(model);

function named(answer: 'seals' | 'legs', sets: Readonly<Record<string, number>>): string | undefined {
  const dangers = [{ question: 'found', answer, caution: 'loose' }];
  const { first } = advise(model, bench, believing(sets, model), { dangerous: true, dangers });
  return first === undefined ? undefined : model.rules.adjustments[first]!.id;
}

describe('a repair behind a danger', () => {
  it('is of the end where it is twice as likely, and of none short of that', () => {
    expect(named('seals', { 'front.seals.worn': 0.41, 'rear.seals.worn': 0.2 })).toBe('front.seals.service');
    expect(named('seals', { 'front.seals.worn': 0.2, 'rear.seals.worn': 0.41 })).toBe('rear.seals.service');
    expect(named('seals', { 'front.seals.worn': 0.39, 'rear.seals.worn': 0.2 })).toBeUndefined();
  });

  it('has no other end where it is written for one alone: there it need only be likely', () => {
    expect(named('legs', { 'front.legs.full': 0.31, 'rear.seals.worn': 0.3 })).toBe('legs.vent');
    expect(named('legs', { 'front.legs.full': 0.29, 'rear.seals.worn': 0.3 })).toBe('rear.seals.service');
  });
});

/** What a later look takes away from an earlier reading: it is neither counted nor asked once it is known to be wrong. */
import { expect, it } from 'vitest';
import { consult } from '../../src/casework/consult.ts';
import { bench, caseOf, model, SOUND } from '../support/told.ts';

const heard = (answers: Readonly<Record<string, string>>) => {
  const kase = caseOf({ ...SOUND, ...answers });
  const { heard: all, open } = consult(model, bench, kase, { next: true, explain: 0, fit: false });
  const name = (index: number): string => model.rules.questions[index]!.id;
  return {
    counted: all.evidence.map(({ question }) => name(question)),
    open: open.map(({ question }) => name(question)),
  };
};

it('sets a figure aside once a second gauge reads otherwise', () => {
  const { counted } = heard({ 'tyre-target@front': 'target', 'tyre-second@front': 'harder' });
  expect(counted).not.toContain('tyre-target@front');
  expect(counted).toContain('tyre-second@front');
  expect(heard({ 'tyre-target@front': 'over', 'tyre-second@rear': 'harder' }).counted).toContain(
    'tyre-target@front',
  );
});

it('counts it where the second gauge agrees, or nobody asked', () => {
  expect(heard({ 'tyre-target@front': 'target', 'tyre-second@front': 'same' }).counted).toContain(
    'tyre-target@front',
  );
  expect(heard({ 'tyre-target@front': 'target' }).counted).toContain('tyre-target@front');
});

it('asks it before the other was asked, and the other only after it', () => {
  expect(heard({ 'grip@front': 'little' }).open).toContain('tyre-target@front');
  expect(heard({ 'grip@front': 'little' }).open).not.toContain('tyre-second@front');
  expect(heard({ 'grip@front': 'little', 'tyre-target@front': 'target' }).open[0]).toBe('tyre-second@front');
});

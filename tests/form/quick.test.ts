/** The quick check of a form and zod say the same of the same data: it is only there because it is quick. */
import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { parse, parseAllDocuments } from 'yaml';
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readQuickly } from '../../src/bike/form/read-quickly.ts';
import { readSheet } from '../../src/bike/form/read.ts';
import { vocabularyOf } from '../../src/casework/case.ts';
import { readCase } from '../../src/casework/reading/read-case.ts';
import { readQuickly as readCaseQuickly } from '../../src/casework/reading/read-quickly.ts';
import { compiledForms } from '../../src/form/compiled-forms.ts';
import { hasForm, type JsonForm } from '../../src/form/quick.ts';
import { ROOT } from '../../src/host/root.ts';
import { FORMS, plainForms } from '../../src/start/forms.ts';
import { baseRules } from '../support/base-rules.ts';
import { mutateData } from '../fuzz/mutate.ts';

const { rules } = baseRules();
const forms = plainForms();
const filesOf = (folder: string) =>
  readdirSync(join(ROOT, folder)).map((file) => readFileSync(join(ROOT, folder, file), 'utf8'));
const bikes: unknown[] = filesOf('examples/bikes').map((text) => parse(text) as unknown);
const cases: unknown[] = filesOf('examples/cases').flatMap((text) =>
  parseAllDocuments(text).map((one): unknown => one.toJS()),
);
const dice = (seed: number) => {
  let state = seed;
  return (): number => (state = (state * 48_271) % 2_147_483_647) / 2_147_483_647;
};
const broken = (good: readonly unknown[]) =>
  fc
    .tuple(fc.constantFrom(...good), fc.integer({ min: 1, max: 2_000_000_000 }))
    // As a file can hold it.
    .map(
      ([one, seed]) => JSON.parse(JSON.stringify(mutateData(dice(seed), structuredClone(one)))) as unknown,
    );

describe('the quick check of a form', () => {
  it.each([
    ['bike', bikes],
    ['case', cases],
  ] as const)('takes every example of a %s, and says of broken ones what zod says', (name, good) => {
    for (const one of good) expect(hasForm(forms[name]!, one)).toBe(true);
    fc.assert(
      fc.property(broken(good), (one) => {
        // What JSON Schema counts in letters zod counts in the units of a text; none of ours is near a limit.
        expect(hasForm(forms[name]!, one)).toBe(FORMS[name]!.safeParse(one).success);
      }),
      { numRuns: 400 },
    );
  });
  it.each(Object.keys(FORMS))('agrees with zod on anything as a %s', (name) => {
    fc.assert(
      fc.property(fc.anything(), (one) => {
        expect(hasForm(forms[name]!, one)).toBe(FORMS[name as keyof typeof FORMS].safeParse(one).success);
      }),
    );
  });
  it('knows every word of JSON Schema that the forms use', () => {
    const known = new Set(
      'type const enum anyOf oneOf properties required additionalProperties items prefixItems minItems maxItems minimum maximum exclusiveMinimum minLength maxLength pattern propertyNames'.split(
        ' ',
      ),
    );
    const unknown = new Set<string>();
    const walk = (form: JsonForm): void => {
      for (const word of Object.keys(form)) if (!known.has(word)) unknown.add(word);
      const { properties = {}, additionalProperties: others, anyOf = [], oneOf = [] } = form;
      const { items, prefixItems = [] } = form;
      for (const one of [...Object.values(properties), ...anyOf, ...oneOf, ...prefixItems]) walk(one);
      for (const one of [others, items]) if (typeof one === 'object') walk(one);
    };
    for (const form of Object.values(forms)) walk(form);
    expect([...unknown]).toEqual([]);
  });
});

// Made by the build; the sources themselves have none, and go the long way.
describe.runIf(Object.keys(compiledForms).length > 0)('a file read quickly', () => {
  it('is the sheet that the full reader gives, pack settings and all', () => {
    for (const one of bikes) {
      const front = { ...(one as { front: object }).front, lever: 'open' };
      for (const raw of [one, { ...(one as object), front }])
        expect(readQuickly(raw, rules.adjusters) ?? 'left to the reader').toEqual(
          readSheet(raw, rules.adjusters).sheet === undefined
            ? 'left to the reader'
            : readSheet(raw, rules.adjusters),
        );
    }
  });
  it('is the case that the full reader gives', () => {
    const vocabulary = vocabularyOf(rules);
    for (const one of cases)
      expect(readCaseQuickly(one, vocabulary, 'x')).toEqual(readCase(one, vocabulary, 'x'));
  });
});

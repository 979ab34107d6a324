/** What bounds a step stands beside it in every printed form: for which bike it is, how far it goes, and how it was rated before. */
import { describe, expect, it } from 'vitest';
import { consult } from '../../src/casework/consult.ts';
import { lastScreen } from '../../src/report/last-screen.ts';
import { markdownReport } from '../../src/report/markdown.ts';
import { pitSheet } from '../../src/report/pit-sheet/pit-sheet.ts';
import { pitSheetMarkdown } from '../../src/report/pit-sheet/markdown.ts';
import type { Result } from '../../src/report/result/result.ts';
import { toResult } from '../../src/report/result/to-result.ts';
import { PLAIN } from '../../src/report/style.ts';
import { textReport } from '../../src/report/text.ts';
import { bench, caseOf, model, rules, SOUND } from '../support/told.ts';

const kase = caseOf({
  ...SOUND,
  'sag@front': 'less',
  'ride-height@front': 'high',
  'travel-ring@front': 'short',
});
const real = toResult(model, kase, consult(model, bench, kase, { next: true, explain: 5, fit: true }));
const [first, second, ...more] = real.adjustments;
const BOUNDED: Result = {
  ...real,
  verdict: 'change',
  because: 'measured-first',
  first: first!.id,
  insteadOf: { id: 'other', do: 'Turn the other knob', why: 'its gauge is read first' },
  adjustments: [
    { ...first!, note: 'no further than the last mark', ridden: ['Ridden on day one. Nobody kept it.'] },
    {
      ...second!,
      heed: 'only if the end has such a spring',
      ridden: ['Ridden on day two, rated worse. Nobody kept it.'],
    },
    ...more,
  ],
};
const one = (text: string): string => text.replaceAll('\\', '').replaceAll(/\s+/g, ' ');
const sheet = (result: Result) => pitSheet({ rules, result, sheet: undefined, physics: null });
const FORMS: readonly (readonly [string, (result: Result) => string])[] = [
  ['text', (r) => textReport(r, { rules })],
  ['Markdown', (r) => markdownReport(r, 'mechanic', rules)],
  ['a pit sheet', (r) => pitSheetMarkdown(sheet(r))],
];

describe.each(FORMS)('%s', (_, print) => {
  it.each([
    ['how far the first step goes', /no further than the last mark/i],
    ['that it was ridden before, whole', /Ridden on day one\. Nobody kept it\./],
    ['what comes after it, and why', /"Turn the other knob" comes after this: its gauge is read first\./],
    [
      'for which bike the next one is',
      /: .*\b(?:cause|less|more|springs?)\b.*\. Only if the end has such a spring\./,
    ],
    ['how that was rated before', /such a spring\. Ridden on day two, rated worse\.(?! Nobody)/],
  ])('says %s', (_, limit) => {
    expect(one(print(BOUNDED))).toMatch(limit);
  });
  it.each(['none-of-these', 'one-impression', 'unexplained', null] as const)(
    'tells a verdict "change nothing" in the words of the last screen: %s',
    (because) => {
      const result: Result = {
        ...real,
        verdict: 'unknown',
        because,
        first: null,
        insteadOf: null,
        refused: [],
      };
      const screen = { style: PLAIN, rules, audience: 'mechanic', rows: undefined, key: 'm' } as const;
      const last = one(lastScreen(result, screen));
      const said =
        /(?:Not sure yet: change nothing|Change nothing yet) (.*?(?:ridden|ride it|worth a trial)\.)/.exec(
          last,
        )![1]!;
      expect(one(print(result))).toContain(said);
    },
  );
});

/** One chance has one number: on the card, among the causes, in explain, on the pit sheet and beside the questions. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { consult } from '../../src/casework/consult.ts';
import { percent } from '../../src/form/text.ts';
import type { Io } from '../../src/host/io.ts';
import { ROOT } from '../../src/host/root.ts';
import { begin } from '../../src/interview/session.ts';
import { look } from '../../src/interview/settle.ts';
import { running, why } from '../../src/interview/why.ts';
import { explainReport } from '../../src/report/explain.ts';
import { runningLine } from '../../src/report/interview-text.ts';
import { inTen } from '../../src/report/phrases.ts';
import type { Result } from '../../src/report/result/result.ts';
import { PLAIN } from '../../src/report/style.ts';
import { toResult } from '../../src/report/result/to-result.ts';
import { openWorkspace } from '../../src/workspace/workspace.ts';
import { bareBike, baseModel } from '../support/base-rules.ts';
import { earshot } from '../support/io.ts';

const CASES = join(ROOT, 'examples/cases');
const NAMES = readdirSync(CASES).filter((file) => file.endsWith('.yaml'));
const FORMS: readonly (readonly string[])[] = [
  ['diagnose', '--full'],
  ['diagnose', '--format', 'markdown'],
  ['report', '--format', 'markdown'],
];

/** What `explain` prints but for its last part, on what the advice hangs: that tells no chance, and costs most. */
const workspace = openWorkspace(
  { env: { EARSHOT_HOME: process.env['EARSHOT_TESTS_HOME'] }, cwd: ROOT } as unknown as Io,
  [],
);
async function explained(file: string): Promise<string> {
  const { model, rules, open } = await workspace;
  const opened = await open({ name: file, folder: CASES, data: parse(readFileSync(file, 'utf8')) });
  if ('faults' in opened) throw new Error(opened.faults.join('\n'));
  const { kase, bench } = opened;
  const most = rules.causes.length;
  const thought = consult(model, bench, kase, { next: true, explain: most, fit: true });
  const result = toResult(model, kase, thought, { most });
  const priors = Object.fromEntries(rules.causes.map((c) => [c.id, c.prior]));
  const shown = { style: PLAIN, audience: 'mechanic' } as const;
  return explainReport(bench.rules, result, result.causes.slice(0, 3), priors, undefined, [], shown);
}
/** Two whole lines of the program stand for the rest. */
const WHOLE = ['fork-packs-down.yaml', 'contradicts-itself.yaml'];

const escaped = (text: string): string => text.replaceAll(/[.*+?^${}()|[\]\\]/g, '\\$&');
/** Every chance that stands behind a cause's name; what it was before the first question is another. */
const toldOf = (text: string, name: string): string[] =>
  [
    ...text.matchAll(
      new RegExp(
        `${escaped(name)}\\**(?:: [^.:]* before the first question,|[:,|]| \\|)? ((?:over |under )?\\d+ %)`,
        'gi',
      ),
    ),
  ].map((m) => m[1]!);

describe.each(NAMES)('%s', (name) => {
  it('tells every chance alike in all its printed forms', async () => {
    const file = join(CASES, name);
    const { out } = await earshot(['diagnose', file, '--format', 'json', '--full']);
    const [result] = JSON.parse(out) as [Result];
    let told = 0;
    const forms = [['the reasons', await explained(file)]];
    for (const line of WHOLE.includes(name) ? [...FORMS, ['explain']] : FORMS)
      forms.push([line.join(' '), (await earshot([line[0]!, file, ...line.slice(1)])).out]);
    for (const [form, printed] of forms) {
      const text = printed!.replaceAll(/\s+/g, ' ');
      for (const { name: cause, probability } of result.causes)
        for (const number of toldOf(text, cause)) {
          told++;
          expect([form, cause, number]).toEqual([form, cause, percent(probability)]);
        }
      const odds = result.adjustments.find((a) => a.id === result.first);
      const own = result.causes.find((c) => c.id === odds?.cures);
      const card = /(?:Odds:?\**|^- ) ?(.{1,14}?) this is the cause/.exec(text)?.[1];
      if (card !== undefined && own !== undefined) expect(card.toLowerCase()).toBe(inTen(own.probability));
    }
    if (result.verdict !== 'stop') expect(told).toBeGreaterThan(3);
  });
});

it('tells beside a question, and of what its answers would do, the chances of the end', () => {
  const model = baseModel();
  const bench = bareBike();
  const answers = [
    { question: 'complaint', answer: 'rows', sure: 'sure' as const },
    { question: 'hit-pattern', answer: 'row', sure: 'sure' as const },
    { question: 'repeated-hits.trend@front', answer: 'worse', sure: 'sure' as const },
  ];
  const [state] = begin(model, bench, { id: 'x', answers });
  const c = look(model, bench, state);
  const [top] = c.ranked;
  const said = percent((1 - c.none) * c.belief.causes[top!]!);
  expect(runningLine(4, '', running(model, bench, c))).toContain(`${bench.rules.causes[top!]!.name} ${said}`);
  expect(runningLine(4, '', running(model, bench, c), 'rider')).toBe(
    `Question 4: best guess so far, ${said} likely`,
  );
  // The answer that was given leads to where the interview is.
  const now = why(model, bench, state, 'repeated-hits.trend@front').find((w) => w.answer === 'worse')!;
  expect(percent(now.leads!.probability)).toBe(said);
});

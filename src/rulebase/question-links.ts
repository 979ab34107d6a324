/** What a question says of others: gates, what makes it early or dangerous, what its answers imply. */
import type { OwnSetting } from '../bike/own-setting.ts';
import { didYouMean } from '../form/suggest.ts';
import { checkFact, factPath, reportNoAnswer, reportUnknown } from './look-up.ts';
import { type Cause, type Gate, type Question, type Setting, isSuspension, type Link } from './compiled.ts';
import type { GaugeTrade } from './compile-gauge.ts';
import type { Entry, Report } from './entries.ts';
import type { QuestionSource } from './schema/question.ts';
import type { End } from '../bike/sheet.ts';

export interface LinkContext {
  readonly settings: readonly Setting[];
  /** the rows that the packs add to the settings table */
  readonly adjusters: readonly OwnSetting[];
  /** what a bike sheet can say, by path */
  readonly facts: ReadonlyMap<string, readonly string[]>;
  readonly causes: readonly Cause[];
  readonly cautionIds: ReadonlySet<string>;
  readonly retired: ReadonlyMap<string, string>;
  readonly gauges: GaugeTrade;
  readonly word: (text: string, place: Parameters<Report>[0]) => number;
  readonly report: Report;
}

export type QuestionEntry = Entry<QuestionSource>;

/** `hit-pattern` stays, `row.trend@{end}` is filled, and a bare id takes the entry's own end where only that exists. */
export function withEnd(id: string, end: string | undefined, known: { has(id: string): boolean }): string {
  return known.has(id) || end === undefined ? id : known.has(`${id}@${end}`) ? `${id}@${end}` : id;
}

/** What makes a question early: answers to questions, and what turning a setting did. */
export function linkEarly(
  e: QuestionEntry,
  when: NonNullable<QuestionEntry['data']['early-when']>,
  byId: ReadonlyMap<string, QuestionEntry>,
  context: LinkContext,
): NonNullable<Question['earlyWhen']> {
  const { settings, report } = context;
  return Object.entries(when).flatMap(([on, values]): NonNullable<Question['earlyWhen']>[number][] => {
    const filled = e.fill(on);
    if (!filled.startsWith('tried.'))
      return linkGate(e, on, values, byId, context, 'early-when').flatMap((gate) =>
        gate.on === 'question' ? [{ on: 'question' as const, id: gate.id, values: gate.values }] : [],
      );
    const id = filled.slice('tried.'.length);
    if (!settings.some((s) => s.id === id))
      reportUnknown(
        report,
        e.place(['early-when'], on),
        'setting',
        id,
        settings.map((s) => s.id),
      );
    return [{ on: 'tried', id, values: typeof values === 'string' ? [values] : values }];
  });
}

export function linkGate(
  e: QuestionEntry,
  on: string,
  values: string | string[],
  byId: ReadonlyMap<string, QuestionEntry>,
  { facts, report }: LinkContext,
  key: 'only-if' | 'early-when' | 'void-after' = 'only-if',
): Gate[] {
  const list = typeof values === 'string' ? [values] : values;
  const filled = e.fill(on);
  const path = factPath(filled);
  if (path !== undefined) {
    checkFact(facts, path, list, (message, remedy) =>
      report(e.place([key], on), 'sheet', `The gate ${message}`, remedy),
    );
    return [{ on: 'bike', id: path, values: list }];
  }
  const id = withEnd(filled, e.end, byId);
  const other = byId.get(id);
  if (other === undefined) {
    report(
      e.place([key], on),
      'unknown-id',
      `The gate asks for ${id}, which is no question.`,
      didYouMean(id, byId.keys()) || 'Use a question id, or bike. and a path on the bike sheet.',
    );
    return [];
  }
  const answers = Object.keys(other.data.answers);
  for (const answer of list.filter((value) => !answers.includes(value)))
    reportNoAnswer(report, e.place([key, on]), { question: id, answer, answers }, 'gate-shut');
  return [{ on: 'question', id, values: list }];
}

/** What takes its answer away again: a gate that every other answer, and none, leaves open. */
export function linkVoid(
  e: QuestionEntry,
  when: NonNullable<QuestionEntry['data']['void-after']>,
  byId: ReadonlyMap<string, QuestionEntry>,
  context: LinkContext,
): Gate[] {
  return Object.entries(when).flatMap(([on, values]) =>
    linkGate(e, on, values, byId, context, 'void-after').flatMap(({ on: what, id, values: shut }) =>
      what === 'bike'
        ? []
        : [
            {
              on: what,
              id,
              values: Object.keys(byId.get(id)!.data.answers).filter((answer) => !shut.includes(answer)),
              lax: true as const,
            },
          ],
    ),
  );
}

/** What makes an answer dangerous beside it: [question id, its answers], or nothing after a problem. */
export function linkBeside(
  e: QuestionEntry,
  [answer, on, values]: readonly [answer: string, on: string, values: readonly string[]],
  byId: ReadonlyMap<string, QuestionEntry>,
  report: Report,
): [string, readonly string[]][] {
  const at = ['dangerous', answer, 'with', on] as const;
  const id = withEnd(e.fill(on), e.end, byId);
  const other = byId.get(id);
  if (other === undefined) {
    report(
      e.place(['dangerous', answer, 'with'], on),
      'unknown-id',
      `dangerous asks for ${id}, which is no question.`,
      didYouMean(id, byId.keys()) || 'Use a question id.',
    );
    return [];
  }
  const answers = Object.keys(other.data.answers);
  for (const value of values.filter((one) => !answers.includes(one)))
    reportNoAnswer(report, e.place(at), { question: id, answer: value, answers });
  return [[id, values]];
}

/** What an answer says of another question without its being asked: [question id, answer id], or nothing after a problem. */
export function linkImplied(
  e: QuestionEntry,
  [answer, template, value]: readonly [answer: string, template: string, value: string],
  byId: ReadonlyMap<string, QuestionEntry>,
  report: Report,
): [string, string][] {
  const id = withEnd(e.fill(template), e.end, byId);
  const implied = e.fill(value);
  const other = byId.get(id);
  const at = ['implies', answer] as const;
  if (other === undefined) {
    reportUnknown(report, e.place(at, template), 'question', id, byId.keys());
    return [];
  }
  const answers = Object.keys(other.data.answers);
  if (!answers.includes(implied)) {
    reportNoAnswer(report, e.place([...at, template]), { question: id, answer: implied, answers });
    return [];
  }
  if (other.data.safety === true) {
    report(
      e.place(at, template),
      'implied-safety',
      `${e.id} implies ${id}, which is a safety question.`,
      'A safety question is always asked; take this line out.',
    );
    return [];
  }
  return [[id, implied]];
}

export function reportCycles(
  questions: readonly Question[],
  byId: ReadonlyMap<string, QuestionEntry>,
  report: Report,
): void {
  const gates = new Map(
    questions.map((q) => [
      q.id,
      q.gates.filter((g) => g.on === 'question' && g.lax !== true).map((g) => g.id),
    ]),
  );
  const state = new Map<string, 'open' | 'done'>();
  const visit = (id: string, trail: readonly string[]): void => {
    if (state.get(id) === 'done') return;
    if (state.get(id) === 'open') {
      const cycle = [...trail.slice(trail.indexOf(id)), id].join(' → ');
      report(
        byId.get(id)!.place(['only-if']),
        'gate-cycle',
        `These questions wait for each other: ${cycle}.`,
        'Take one of the gates away.',
      );
      return;
    }
    state.set(id, 'open');
    for (const next of gates.get(id) ?? []) visit(next, [...trail, id]);
    state.set(id, 'done');
  };
  for (const q of questions) visit(q.id, []);
}

/** Gates that go without saying: what only speaks of a part is not asked where the bike has no such part. */
interface Parts {
  readonly settings: readonly Setting[];
  readonly causes: readonly Cause[];
  readonly adjusters: readonly OwnSetting[];
  readonly facts: ReadonlyMap<string, readonly string[]>;
}

/**
 * A question of one end whose causes at that end are all of its suspension is for ends that have one; one whose causes
 * are all of a part that a pack added is for bikes that have it.
 * @param given gates that the rule has already
 */
export function partGates(
  links: readonly Link[],
  end: End | undefined,
  { settings, causes, adjusters, facts }: Parts,
  given: readonly Gate[],
): Gate[] {
  const linked = [...new Set(links.map(([cause]) => settings[causes[cause]!.setting]!))];
  const gates: Gate[] = [];
  const gate = (path: string): void => {
    if (given.some((one) => one.on === 'bike' && one.id === path)) return;
    gates.push({ on: 'bike', id: path, values: facts.get(path)!.filter((value) => value !== 'none') });
  };
  const there = linked.filter((setting) => setting.end !== undefined && setting.end === end);
  if (end !== undefined && there.length > 0 && there.every(isSuspension)) gate(`${end}.spring`);
  const [only] = linked;
  if (linked.length === 1 && adjusters.some(({ id }) => id === only!.id)) gate(only!.id);
  return gates;
}

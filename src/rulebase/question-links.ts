/** What a question says of others: gates, what makes it early or dangerous, what its answers imply. */
import type { OwnSetting } from '../bike/own-setting.ts';
import { didYouMean } from '../form/suggest.ts';
import { checkFact, factPath, type Ids } from './look-up.ts';
import type { Path } from '../form/parse.ts';
import type { Place, ProblemCode } from '../form/problem.ts';
import { type Cause, type Gate, type Question, type Setting, isSuspension, type Link } from './compiled.ts';
import type { GaugeTrade } from './compile-gauge.ts';
import type { Entry } from './entries.ts';
import type { QuestionSource } from './schema/question.ts';
import type { End } from '../bike/sheet.ts';

export interface LinkContext {
  readonly settings: readonly Setting[];
  /** the rows that the packs add to the settings table */
  readonly adjusters: readonly OwnSetting[];
  /** what a bike sheet can say, by path */
  readonly facts: ReadonlyMap<string, readonly string[]>;
  readonly causes: readonly Cause[];
  /** where each setting and cause stands among them, by id */
  readonly settingIndex: ReadonlyMap<string, number>;
  readonly causeIndex: ReadonlyMap<string, number>;
  readonly cautionIds: ReadonlySet<string>;
  readonly gauges: GaugeTrade;
  readonly word: (text: string, place: Place) => number;
}

export type QuestionEntry = Entry<QuestionSource>;
export type Questions = ReadonlyMap<string, QuestionEntry>;

/** `hit-pattern` stays, `row.trend@{end}` is filled, and a bare id takes the entry's own end where only that exists. */
export function withEnd(id: string, end: string | undefined, known: Ids): string {
  return known.has(id) || end === undefined ? id : known.has(`${id}@${end}`) ? `${id}@${end}` : id;
}

/** Reports every one of `values` that is no answer of a question. */
function checkAnswers(
  e: QuestionEntry,
  path: Path,
  { id, data }: QuestionEntry,
  values: readonly string[],
  code?: ProblemCode,
): void {
  const answers = Object.keys(data.answers);
  for (const answer of values.filter((one) => !answers.includes(one)))
    e.noAnswer(path, { question: id, answer, answers }, code);
}

/** What makes a question early: answers to questions, and what turning a setting did. */
export function linkEarly(e: QuestionEntry, byId: Questions, context: LinkContext): Question['earlyWhen'] {
  const when = e.data['early-when'];
  if (when === undefined) return undefined;
  return Object.entries(when).flatMap(([on, values]): NonNullable<Question['earlyWhen']>[number][] => {
    const filled = e.fill(on);
    if (!filled.startsWith('tried.'))
      return linkGate(e, on, values, byId, context, 'early-when').flatMap((gate) =>
        gate.on === 'question' ? [{ on: 'question' as const, id: gate.id, values: gate.values }] : [],
      );
    const id = e.named('setting', filled.slice('tried.'.length), context.settingIndex, ['early-when'], on);
    return [{ on: 'tried', id, values: [values].flat() }];
  });
}

export function linkGate(
  e: QuestionEntry,
  on: string,
  values: string | string[],
  byId: Questions,
  { facts }: LinkContext,
  key: 'only-if' | 'early-when' | 'void-after' = 'only-if',
): Gate[] {
  const list = [values].flat();
  const filled = e.fill(on);
  const path = factPath(filled);
  if (path !== undefined) {
    checkFact(facts, path, list, (message, remedy) =>
      e.wrong([key], 'sheet', `The gate ${message}`, remedy, on),
    );
    return [{ on: 'bike', id: path, values: list }];
  }
  const id = withEnd(filled, e.end, byId);
  const other = byId.get(id);
  if (other === undefined) {
    const remedy = didYouMean(id, byId.keys()) || 'Use a question id, or bike. and a path on the bike sheet.';
    e.wrong([key], 'unknown-id', `The gate asks for ${id}, which is no question.`, remedy, on);
    return [];
  }
  checkAnswers(e, [key, on], other, list, 'gate-shut');
  return [{ on: 'question', id, values: list }];
}

/** What takes its answer away again: a gate that every other answer, and none, leaves open. */
export function linkVoid(e: QuestionEntry, byId: Questions, context: LinkContext): Gate[] {
  return Object.entries(e.data['void-after'] ?? {}).flatMap(([after, answers]) =>
    linkGate(e, after, answers, byId, context, 'void-after').flatMap(({ on, id, values: shut }): Gate[] => {
      if (on === 'bike') return [];
      const values = Object.keys(byId.get(id)!.data.answers).filter((answer) => !shut.includes(answer));
      return [{ on, id, values, lax: true }];
    }),
  );
}

/** What makes an answer dangerous beside it: [question id, its answers], or nothing after a problem. */
export function linkBeside(
  e: QuestionEntry,
  [path, on, values]: readonly [path: readonly string[], on: string, values: readonly string[]],
  byId: Questions,
): [string, readonly string[]][] {
  const id = withEnd(e.fill(on), e.end, byId);
  const other = byId.get(id);
  if (other === undefined) {
    const remedy = didYouMean(id, byId.keys()) || 'Use a question id.';
    e.wrong(path, 'unknown-id', `${path[0]} asks for ${id}, which is no question.`, remedy, on);
    return [];
  }
  checkAnswers(e, [...path, on], other, values);
  return [[id, values]];
}

/** What an answer says of another question without its being asked: [question id, answer id], or nothing after a problem. */
export function linkImplied(
  e: QuestionEntry,
  [answer, template, value]: readonly [answer: string, template: string, value: string],
  byId: Questions,
): [string, string][] {
  const path = ['implies', answer];
  const id = e.named('question', withEnd(e.fill(template), e.end, byId), byId, path, template);
  const implied = e.fill(value);
  const other = byId.get(id);
  if (other === undefined) return [];
  checkAnswers(e, [...path, template], other, [implied]);
  if (!Object.hasOwn(other.data.answers, implied)) return [];
  if (other.data.safety !== true) return [[id, implied]];
  e.wrong(
    path,
    'implied-safety',
    `${e.id} implies ${id}, which is a safety question.`,
    'A safety question is always asked; take this line out.',
    template,
  );
  return [];
}

export function reportCycles(questions: readonly Question[], byId: Questions): void {
  const waits = ({ gates }: Question): string[] =>
    gates.filter((g) => g.on === 'question' && g.lax !== true).map((g) => g.id);
  const gates = new Map(questions.map((q) => [q.id, waits(q)]));
  const state = new Map<string, 'open' | 'done'>();
  const visit = (id: string, trail: readonly string[]): void => {
    if (state.get(id) === 'done') return;
    if (state.get(id) === 'open') {
      const cycle = [...trail.slice(trail.indexOf(id)), id].join(' → ');
      byId
        .get(id)!
        .wrong(
          ['only-if'],
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

/**
 * Gates that go without saying: what only speaks of a part is not asked where the bike has no such part. A question of one end whose causes at that end are all of its suspension is for ends that have one; one whose causes
 * are all of a part that a pack added is for bikes that have it.
 * @param given gates that the rule has already
 */
export function partGates(
  links: readonly Link[],
  end: End | undefined,
  { settings, causes, adjusters, facts }: LinkContext,
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

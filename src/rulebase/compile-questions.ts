/** Questions → signs, base rates, links and gates, all by index. */
import type { OwnSetting } from '../bike/own-setting.ts';
import { rowsOf } from '../bike/settings.ts';
import { checkFact, factPath } from './check-fact.ts';
import {
  CANNOT_TELL,
  NOT_NOW,
  type Cause,
  type Gate,
  type Link,
  type Question,
  type Setting,
  type DangerWith,
} from './compiled.ts';
import { capital } from '../form/capital.ts';
import { oneKnobWords, standing, type Entry, type Report } from './entries.ts';
import { atEitherEnd } from './compile-either.ts';
import { linkGauge, type GaugeTrade } from './compile-gauge.ts';
import { partGates } from './part-gates.ts';
import { reportNoAnswer, reportUnknown } from './look-up.ts';
import type { QuestionSource } from './schema.ts';
import { didYouMean } from '../form/suggest.ts';

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

type QuestionEntry = Entry<QuestionSource>;

export function linkQuestions(entries: readonly QuestionEntry[], context: LinkContext): Question[] {
  const live = entries.filter((e) => e.data.status !== 'retired');
  const byId = new Map(live.map((e) => [e.id, e]));
  const causeIndex = new Map(context.causes.map((c, i) => [c.id, i]));
  const known = new Set([...byId.keys(), ...causeIndex.keys(), ...context.settings.map((s) => s.id)]);
  const questions = live.map((e) => linkOne(e, byId, causeIndex, known, context));
  reportCycles(questions, byId, context.report);
  return [...questions, ...atEitherEnd(live, questions)];
}

function linkOne(
  e: QuestionEntry,
  byId: ReadonlyMap<string, QuestionEntry>,
  causeIndex: ReadonlyMap<string, number>,
  known: ReadonlySet<string>,
  context: LinkContext,
): Question {
  const { settings, cautionIds, word, report } = context;
  const q = e.data;
  const ids = Object.keys(q.answers);
  const measures = q.measures === undefined ? undefined : e.fill(q.measures);
  if (measures !== undefined && !settings.some((s) => s.id === measures)) {
    const settingIds = settings.map((s) => s.id);
    reportUnknown(report, e.place(['measures']), 'setting', measures, settingIds);
  }
  const onSheet = q['on-sheet'] === undefined ? undefined : e.fill(q['on-sheet']);
  const readings = rowsOf(context.adjusters).flatMap((row) => (row.reading === undefined ? [] : [row.stand]));
  if (onSheet !== undefined && !settings.some((s) => s.id === onSheet) && !readings.includes(onSheet)) {
    const settingIds = [...settings.map((s) => s.id), ...readings];
    reportUnknown(report, e.place(['on-sheet']), 'setting', onSheet, settingIds);
  }
  for (const id of ids.filter((one) => one === CANNOT_TELL || one === NOT_NOW))
    report(
      e.place(['answers'], id),
      'shape',
      `${id} is an answer of every question by itself, and never a sign.`,
      'Give this answer another id.',
    );
  if (ids.length < 2)
    report(
      e.place(['answers']),
      'shape',
      `${e.id} has fewer than two answers.`,
      'A question needs a default and at least one sign.',
    );
  if (!ids.includes(q.default)) {
    report(
      e.place(['default']),
      'unknown-id',
      `The default ${q.default} is not an answer.`,
      didYouMean(q.default, ids) || `Answers: ${ids.join(', ')}.`,
    );
  }
  const several = q['when-several'];
  if (several !== 'cancel' && several !== 'any' && !ids.includes(several)) {
    report(
      e.place(['when-several']),
      'bad-several',
      `${several} is neither cancel, any nor an answer.`,
      `Use cancel, any, or one of ${ids.join(', ')}.`,
    );
  }
  if (q.several === true && (several !== 'any' || q.safety === true)) {
    report(
      e.place(['several']),
      'bad-several',
      'Several answers are taken only where any sign noticed may be said, and never of safety.',
      q.safety === true ? 'Give them an answer of their own.' : 'Write when-several: any.',
    );
  }
  const answerKey = (key: string, path: string[], what: string): boolean => {
    if (ids.includes(key)) return true;
    report(
      e.place(path, key),
      'unknown-id',
      `${what} names ${key}, which is not an answer of ${e.id}.`,
      didYouMean(key, ids) || `Answers: ${ids.join(', ')}.`,
    );
    return false;
  };
  for (const key of Object.keys(q['points-to'])) {
    answerKey(key, ['points-to'], 'points-to');
    if (key === q.default)
      report(
        e.place(['points-to'], key),
        'default-points',
        `${key} is the default of ${e.id}, so it cannot point to a cause.`,
        'Move the causes to a sign, or choose another default.',
      );
  }
  for (const key of Object.keys(q.usually ?? {})) answerKey(key, ['usually'], 'usually');
  const never = word('never', e.place());
  const base = ids.map((id) => {
    if (id === q.default) return 0;
    const given = q.usually?.[id];
    if (given !== undefined) return word(given, e.place(['usually', id]));
    // The answer that stands for several signs at once is only reached through them.
    if (measures !== undefined) return never;
    if (id === several) return 0;
    report(
      e.place(['usually']),
      'probability',
      `${e.id}: how often a rider with nothing off reports ${id} is missing.`,
      `Add ${id}: rarely (or another word) under usually:.`,
    );
    return never;
  });
  const links: Link[] = [];
  for (const [answer, causes] of Object.entries(q['points-to'])) {
    for (const [template, strength] of Object.entries(causes)) {
      // `headset.loose@front`: of a question for both ends, only the one asked about the front points there.
      const [filled, only] = e.fill(template).split('@');
      if (only !== undefined && only !== e.end) continue;
      const cause = filled!;
      const index = causeIndex.get(cause);
      if (index === undefined) {
        reportUnknown(report, e.place(['points-to', answer], template), 'cause', cause, causeIndex.keys());
        continue;
      }
      links.push([index, ids.indexOf(answer), word(strength, e.place(['points-to', answer, template]))]);
    }
  }
  const dangerousWith: Record<string, DangerWith> = {};
  for (const [answer, danger] of Object.entries(q.dangerous ?? {})) {
    answerKey(answer, ['dangerous'], 'dangerous');
    const caution = e.fill(typeof danger === 'string' ? danger : danger.caution);
    if (typeof danger !== 'string')
      dangerousWith[answer] = {
        caution,
        beside: Object.fromEntries(
          Object.entries(danger.with).flatMap(([on, values]) =>
            linkBeside(e, [answer, on, [values].flat().map(String)], byId, report),
          ),
        ),
      };
    if (!cautionIds.has(caution))
      reportUnknown(report, e.place(['dangerous', answer]), 'caution', caution, cautionIds);
  }
  for (const [answer, caution] of Object.entries(q.cautions ?? {})) {
    answerKey(answer, ['cautions'], 'cautions');
    if (!cautionIds.has(e.fill(caution)))
      reportUnknown(report, e.place(['cautions', answer]), 'caution', e.fill(caution), cautionIds);
  }
  const confusable = q['confusable-with'].map(({ id, tell }, i) => {
    const full = withEnd(e.fill(id), e.end, known);
    if (!known.has(full))
      report(
        e.place(['confusable-with', i, 'id']),
        'unknown-id',
        `Nothing has the id ${full}.`,
        didYouMean(full, known),
      );
    return { id: full, tell: e.fill(tell) };
  });
  for (const key of Object.keys(q.implies ?? {})) answerKey(key, ['implies'], 'implies');
  const implies = Object.fromEntries(
    Object.entries(q.implies ?? {}).map(([answer, others]) => [
      answer,
      Object.fromEntries(
        Object.entries(others).flatMap(([template, value]) =>
          linkImplied(e, [answer, template, value], byId, report),
        ),
      ),
    ]),
  );
  const gates = Object.entries(q['only-if'] ?? {}).flatMap(([on, values]) =>
    linkGate(e, on, values, byId, context),
  );
  const gauge = linkGauge(e, context.gauges, report);
  const sign = ids.find((id) => id !== q.default && q['points-to'][id] !== undefined);
  const audited = q.physics?.answer ?? sign;
  if (q.physics?.answer !== undefined) answerKey(q.physics.answer, ['physics', 'answer'], 'physics');
  return {
    id: e.id,
    ...(e.end === undefined ? {} : { end: e.end }),
    ask: capital(e.fill(q.ask)),
    plain: capital(e.fill(q.plain)),
    help: e.fill(q.help),
    ...oneKnobWords<NonNullable<Question['oneKnob']>>(q['one-knob'], (text) => capital(e.fill(text))),
    how: q.how,
    minutes: q.minutes,
    topic: q.topic,
    group: `${q.topic}${e.end === undefined ? '' : `@${e.end}`}/${q.how === 'stand' ? 'stand' : 'felt'}`,
    gates: [...gates, ...partGates(links, e.end, context, gates)],
    safety: q.safety ?? false,
    ...(q['early-when'] === undefined ? {} : { earlyWhen: linkEarly(e, q['early-when'], byId, context) }),
    dangerous: Object.fromEntries(
      Object.entries(q.dangerous ?? {}).flatMap(([a, c]) => (typeof c === 'string' ? [[a, e.fill(c)]] : [])),
    ),
    ...(Object.keys(dangerousWith).length === 0 ? {} : { dangerousWith }),
    ...(q.cautions === undefined
      ? {}
      : { cautions: Object.fromEntries(Object.entries(q.cautions).map(([a, c]) => [a, e.fill(c)])) }),
    ...(measures === undefined ? {} : { measures }),
    ...(onSheet === undefined ? {} : { onSheet }),
    ...(gauge === undefined ? {} : { gauge }),
    answers: Object.entries(q.answers).map(([id, text]) => ({ id, text: e.fill(text) })),
    default: Math.max(0, ids.indexOf(q.default)),
    ...(q.several === true ? { list: true as const } : {}),
    several: several === 'cancel' || several === 'any' ? several : Math.max(0, ids.indexOf(several)),
    implies,
    base,
    links,
    ...(q.assignment === undefined ? {} : { assignment: e.fill(q.assignment) }),
    confusable,
    ...(q.physics === undefined
      ? {}
      : {
          physics: {
            scenario: q.physics.scenario,
            metric: e.fill(q.physics.metric),
            sign: q.physics.sign,
            answer: ids.indexOf(audited ?? ''),
            disagree: Object.fromEntries(
              Object.entries(q.physics.disagree ?? {}).map(([c, why]) => [e.fill(c), why]),
            ),
          },
        }),
    ...standing(e),
  };
}

/** `hit-pattern` stays, `row.trend@{end}` is filled, and a bare id takes the entry's own end where only that exists. */
function withEnd(id: string, end: string | undefined, known: { has(id: string): boolean }): string {
  return known.has(id) || end === undefined ? id : known.has(`${id}@${end}`) ? `${id}@${end}` : id;
}

/** What makes a question early: answers to questions, and what turning a setting did. */
function linkEarly(
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

function linkGate(
  e: QuestionEntry,
  on: string,
  values: string | string[],
  byId: ReadonlyMap<string, QuestionEntry>,
  { facts, report }: LinkContext,
  key: 'only-if' | 'early-when' = 'only-if',
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

/** What makes an answer dangerous beside it: [question id, its answers], or nothing after a problem. */
function linkBeside(
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
function linkImplied(
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

function reportCycles(
  questions: readonly Question[],
  byId: ReadonlyMap<string, QuestionEntry>,
  report: Report,
): void {
  const gates = new Map(
    questions.map((q) => [q.id, q.gates.filter((g) => g.on === 'question').map((g) => g.id)]),
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

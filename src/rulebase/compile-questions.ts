/** Questions → signs, base rates, links and gates, all by index. */
import { rowsOf } from '../bike/settings.ts';
import type { DangerWith, Link, Question } from './compiled.ts';
import { capital } from '../form/text.ts';
import { oneKnobWords, standing } from './entries.ts';
import { atEitherEnd } from './compile-either.ts';
import { linkGauge } from './compile-gauge.ts';
import {
  partGates,
  linkBeside,
  linkEarly,
  linkGate,
  linkImplied,
  linkVoid,
  reportCycles,
  withEnd,
  type LinkContext,
  type QuestionEntry,
  type Questions,
} from './question-links.ts';
import type { Ids } from './look-up.ts';
import { defined } from '../form/plain-data.ts';
import { reportAnswers } from './question-answers.ts';
import { didYouMean } from '../form/suggest.ts';

export function linkQuestions(entries: readonly QuestionEntry[], context: LinkContext): Question[] {
  const live = entries.filter((e) => e.data.status !== 'retired');
  const byId = new Map(live.map((e) => [e.id, e]));
  const known = new Set([...byId.keys(), ...context.causeIndex.keys(), ...context.settingIndex.keys()]);
  const questions = live.map((e) => linkOne(e, byId, known, context));
  reportCycles(questions, byId);
  return [...questions, ...atEitherEnd(live, questions)];
}

function linkOne(e: QuestionEntry, byId: Questions, known: Ids, context: LinkContext): Question {
  const { settingIndex, causeIndex, word } = context;
  const { data: q, fill } = e;
  const measures = q.measures && e.named('setting', q.measures, settingIndex, ['measures']);
  const readings = rowsOf(context.adjusters).flatMap((row) => (row.reading === undefined ? [] : [row.stand]));
  const onSheet =
    q['on-sheet'] &&
    e.named('setting', q['on-sheet'], new Set([...settingIndex.keys(), ...readings]), ['on-sheet']);
  reportAnswers(e);
  const ids = Object.keys(q.answers);
  const several = q['when-several'];
  const never = word('never', e.place());
  const base = ids.map((id) => {
    if (id === q.default) return 0;
    const given = q.usually?.[id];
    if (given !== undefined) return word(given, e.place(['usually', id]));
    // The answer that stands for several signs at once is only reached through them.
    if (measures !== undefined) return never;
    if (id === several) return 0;
    e.wrong(
      ['usually'],
      'probability',
      `${e.id}: how often a rider with nothing off reports ${id} is missing.`,
      `Add ${id}: rarely (or another word) under usually:.`,
    );
    return never;
  });
  const links = Object.entries(q['points-to']).flatMap(([answer, causes]) =>
    Object.entries(causes).flatMap(([template, strength]): Link[] => {
      // `headset.loose@front`: of a question for both ends, only the one asked about the front points there.
      const [cause, only] = fill(template).split('@');
      if (only !== undefined && only !== e.end) return [];
      const path = ['points-to', answer];
      const index = causeIndex.get(e.named('cause', cause!, causeIndex, path, template));
      if (index === undefined) return [];
      return [[index, ids.indexOf(answer), word(strength, e.place([...path, template]))]];
    }),
  );
  const confusable = q['confusable-with'].map(({ id, tell }, i) => {
    const full = withEnd(fill(id), e.end, known);
    if (!known.has(full))
      e.wrong(
        ['confusable-with', i, 'id'],
        'unknown-id',
        `Nothing has the id ${full}.`,
        didYouMean(full, known.keys()),
      );
    return { id: full, tell: fill(tell) };
  });
  const gates = [
    ...Object.entries(q['only-if'] ?? {}).flatMap(([on, values]) => linkGate(e, on, values, byId, context)),
    ...linkVoid(e, byId, context),
  ];
  return defined<Question>({
    id: e.id,
    end: e.end,
    ask: capital(fill(q.ask)),
    plain: capital(fill(q.plain)),
    help: fill(q.help),
    oneKnob: oneKnobWords(q['one-knob'], (text) => capital(fill(text))),
    how: q.how,
    minutes: q.minutes,
    topic: q.topic,
    group: `${q.topic}${e.end === undefined ? '' : `@${e.end}`}/${q.how === 'stand' ? 'stand' : 'felt'}`,
    gates: [...gates, ...partGates(links, e.end, context, gates)],
    safety: q.safety ?? false,
    earlyWhen: linkEarly(e, byId, context),
    ...dangersOf(e, byId, context),
    neverNormal: q['never-normal']?.map((answer) => ids.indexOf(answer)),
    circumstance: q.circumstance,
    byMass: q['by-mass'] as Question['byMass'],
    asksTried: q['asks-tried'],
    toldChange: q['told-change'],
    tells: q.tells as Question['tells'],
    measures,
    onSheet,
    gauge: linkGauge(e, context.gauges),
    answers: Object.entries(q.answers).map(([id, text]) => ({ id, text: fill(text) })),
    default: Math.max(0, ids.indexOf(q.default)),
    list: q.several || undefined,
    several: several === 'cancel' || several === 'any' ? several : Math.max(0, ids.indexOf(several)),
    implies: mapValues(q.implies ?? {}, (others, answer) =>
      Object.fromEntries(
        Object.entries(others).flatMap(([template, value]) =>
          linkImplied(e, [answer, template, value], byId),
        ),
      ),
    ),
    base,
    links,
    assignment: fill(q.assignment),
    confusable,
    physics: physicsOf(e),
    ...standing(e),
  });
}

/** What of its answers stops all tuning, by itself or beside another answer, and what is said with them. */
function dangersOf(e: QuestionEntry, byId: Questions, { cautionIds }: LinkContext) {
  const { dangerous = {}, 'harmless-when': harmless, cautions } = e.data;
  const alone: Record<string, string> = {};
  const beside: Record<string, DangerWith> = {};
  const others = (
    gate: NonNullable<typeof harmless>[string],
    path: readonly string[],
  ): DangerWith['beside'] =>
    Object.fromEntries(
      Object.entries(gate).flatMap(([on, values]) => linkBeside(e, [path, on, [values].flat()], byId)),
    );
  for (const [answer, danger] of Object.entries(dangerous)) {
    const template = typeof danger === 'string' ? danger : danger.caution;
    const caution = e.named('caution', template, cautionIds, ['dangerous', answer]);
    if (typeof danger === 'string') alone[answer] = caution;
    else {
      beside[answer] = { caution, beside: others(danger.with, ['dangerous', answer, 'with']) };
    }
  }
  return {
    dangerous: alone,
    dangerousWith: Object.keys(beside).length === 0 ? undefined : beside,
    harmlessWhen: harmless && mapValues(harmless, (gate, answer) => others(gate, ['harmless-when', answer])),
    cautions:
      cautions &&
      mapValues(cautions, (caution, answer) => e.named('caution', caution, cautionIds, ['cautions', answer])),
  };
}

/** What of the model the question is audited against, and the sign whose causes are. */
function physicsOf({ data: q, fill }: QuestionEntry): Question['physics'] {
  if (q.physics === undefined) return undefined;
  const ids = Object.keys(q.answers);
  const { scenario, metric, sign, disagree = {} } = q.physics;
  const audited = q.physics.answer ?? ids.find((id) => id !== q.default && q['points-to'][id] !== undefined);
  return {
    scenario,
    metric: fill(metric),
    sign,
    answer: ids.indexOf(audited ?? ''),
    disagree: Object.fromEntries(Object.entries(disagree).map(([cause, why]) => [fill(cause), why])),
  };
}

function mapValues<T, U>(
  map: Readonly<Record<string, T>>,
  of: (value: T, key: string) => U,
): Record<string, U> {
  return Object.fromEntries(Object.entries(map).map(([key, value]) => [key, of(value, key)]));
}

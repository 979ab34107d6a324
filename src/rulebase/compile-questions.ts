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
} from './question-links.ts';
import { reportUnknown } from './look-up.ts';
import { reportAnswers } from './question-answers.ts';
import { didYouMean } from '../form/suggest.ts';

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
  reportAnswers(e, report);
  const several = q['when-several'];
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
  const neverNormal = (q['never-normal'] ?? []).flatMap((key) =>
    answerKey(key, ['never-normal'], 'never-normal') ? [ids.indexOf(key)] : [],
  );
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
  for (const key of q['asks-tried'] ?? []) answerKey(key, ['asks-tried'], 'asks-tried');
  for (const key of Object.keys(q.tells ?? {})) answerKey(key, ['tells'], 'tells');
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
  const gates = [
    ...Object.entries(q['only-if'] ?? {}).flatMap(([on, values]) => linkGate(e, on, values, byId, context)),
    ...linkVoid(e, q['void-after'] ?? {}, byId, context),
  ];
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
    ...(neverNormal.length === 0 ? {} : { neverNormal }),
    ...(q.circumstance === undefined ? {} : { circumstance: q.circumstance }),
    ...(q['asks-tried'] === undefined ? {} : { asksTried: q['asks-tried'] }),
    ...(q.tells === undefined ? {} : { tells: q.tells as NonNullable<Question['tells']> }),
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

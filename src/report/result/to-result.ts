/** The result of a case out of what was thought of it. Rounding happens here and nowhere below. */
import { saidClosest } from '../../diagnosis/gates.ts';
import { cautionsFor, whileLikely } from '../../advice/cautions.ts';
import { printDeed } from '../../bike/deed.ts';
import { writeNumber } from '../../bike/gauge/read-number.ts';
import type { Case } from '../../casework/case.ts';
import { complaintsOf } from '../../casework/complaints.ts';
import type { Consultation } from '../../casework/consult.ts';
import { endTold } from '../../casework/evidence.ts';
import { isListed } from '../../casework/leading.ts';
import { withUndone } from '../../casework/undone.ts';
import type { Model } from '../../diagnosis/model.ts';
import { statedOf } from '../../diagnosis/none.ts';
import { ideasOf, pairsIn, rounded } from '../../diagnosis/pairs.ts';
import type { CompiledRules } from '../../rulebase/compiled.ts';
import type { Reading } from '../../words/matcher.ts';
import type { Wished } from '../../words/tried/tried.ts';
import { adjustmentOf } from './adjustment-of.ts';
import { mayBeOneKnob } from './one-knob.ts';
import { offTargetOf, sheetAnswer } from './off-target.ts';
import { isGoneBack, isPutBackAlready, isTriedAgain, putBackBefore } from './put-back-of.ts';
import { leftOut } from './left-out.ts';
import { round } from '../round.ts';
import { tradesIn } from './trades.ts';
import { askedOf, assignmentsOf } from './asked-of.ts';
import { RESULT_FORMAT, type Result, type ResultCause, promised } from './result.ts';

export interface ResultExtras {
  readonly warnings?: readonly string[];
  readonly unconfirmed?: Result['unconfirmed'];
  /** of the free text */
  readonly readings?: readonly Reading[];
  /** what it asks about doing */
  readonly wishes?: readonly Wished[];
  /** what the physical model says each adjustment does on this bike, in lines */
  readonly knockOn?: (adjustment: number) => readonly string[];
  /** how many causes and adjustments to list */
  readonly most?: number;
  /** for a short text: what it does not print is not worked out */
  readonly sparing?: boolean;
}

export function toResult(model: Model, kase: Case, c: Consultation, extras: ResultExtras = {}): Result {
  const bench = withUndone(model, c.cut, c);
  const { rules } = bench;
  const most = extras.most ?? 3;
  const turned = c.tried.effects.flatMap(({ changes }) =>
    changes.length === 1 ? [changes[0]!.setting] : [],
  );
  const adjustments = c.advice.ranked
    .filter(
      ({ adjustment }) => !isPutBackAlready(bench, c, adjustment) && !isTriedAgain(bench, c, adjustment),
    )
    .filter(
      ({ adjustment }, place, listed) => !mayBeOneKnob(bench, adjustment, listed.slice(0, place), turned),
    )
    .slice(0, most)
    .map(({ adjustment, worth }) =>
      adjustmentOf(model, bench, kase, c, {
        adjustment,
        worth,
        knockOn: extras.knockOn?.(adjustment) ?? [],
      }),
    );
  const first = c.advice.first === undefined ? null : rules.adjustments[c.advice.first]!.id;
  const likely = adjustments.find(({ id }) => id === first)?.likely ?? 1;
  // What stops all riding says more.
  const warned = c.advice.verdict === 'stop' ? [] : whileLikely(model, c.belief, c.none);
  const { verdict } = c.advice;
  const leftIn = verdict === 'leave' || verdict === 'unknown' ? putBackBefore(model, bench, c) : undefined;
  const trades = tradesIn(bench, c);
  const wanted = new Set([
    ...saidClosest(rules, c.heard.dangers).map((d) => d.caution),
    ...c.heard.cautions,
    ...adjustments.slice(0, 1).flatMap((a) => a.cautions),
    ...(leftIn?.cautions ?? []),
  ]);
  const end = endTold(model, c.heard.known.answers);
  const byId = (index: number): string => rules.questions[index]!.id;
  const named = ({ adjustment, why }: { readonly adjustment: number; readonly why: string }) => ({
    id: rules.adjustments[adjustment]!.id,
    do: rules.adjustments[adjustment]!.do,
    why,
  });
  const top = c.open[0];
  const pairs = pairsIn(model, c.belief);
  // Of a pair both halves are listed: whoever wants them apart has them.
  const listed = ideasOf(model, c.belief, most + 2)
    .flatMap(({ cause, other }) => (other === undefined ? [cause] : [cause, other]))
    .sort((a, b) => rounded(c.belief.causes[b]!) - rounded(c.belief.causes[a]!) || a - b);
  const pairWords = (cause: number): Pick<ResultCause, 'pair'> => {
    const pair = pairs(cause);
    const name = rules.causes[cause]!.pair?.name;
    if (pair === undefined || pair.lesser || name === undefined) return {};
    const probability = round((1 - c.none) * pair.probability);
    return { pair: { other: rules.causes[pair.other]!.id, name, probability } };
  };
  return {
    format: RESULT_FORMAT,
    case: kase.id,
    rules: {
      name: rules.packs.map((p) => p.name).join('+'),
      version: rules.packs.map((p) => p.version).join('+'),
      digest: rules.digest,
    },
    bike: bench.sheet?.name ?? bench.sheet?.id ?? null,
    said: kase.said ?? null,
    verdict: c.advice.verdict,
    nothing: round((1 - c.none) * c.belief.nothing),
    none: round(c.none),
    checked: c.checked,
    causes: listed
      .filter((i, rank) => isListed(c.belief.causes[i]!, rank))
      .map((i) => ({
        id: rules.causes[i]!.id,
        name: rules.causes[i]!.name,
        probability: round(statedOf(c.belief, c.none, i)),
        ...pairWords(i),
        evidence: [
          ...bench.findings.flatMap((f) =>
            f.decibans
              .filter(([cause]) => cause === i)
              .map(([, db]) => ({
                question: `bike.${rules.settings[f.setting]!.id}`,
                answer: sheetAnswer(f),
                decibans: round(db, 2),
              })),
          ),
          ...(c.evidence.get(i) ?? []).map((e) => ({
            question: byId(e.question),
            answer: rules.questions[e.question]!.answers[e.answer]!.id,
            decibans: round(e.decibans, 2),
            ...measuredOf(kase, byId(e.question)),
          })),
          ...c.tried.effects.map((t) => ({
            question: `tried ${printDeed(t.change)}`,
            answer: t.tried.result,
            decibans: round(t.decibans[i]!, 2),
            tried: t.change,
            ...(t.tried.by === undefined && t.tried.change === undefined ? { unsized: true as const } : {}),
          })),
          ...c.trials.map((t) => ({
            question: `trial ${printDeed(t.change)}`,
            answer: t.outcome,
            decibans: round(t.decibans[i]!, 2),
            trial: t.change,
          })),
        ],
      })),
    adjustments,
    first,
    because: c.advice.because ?? null,
    insteadOf: c.advice.insteadOf === undefined ? null : named(c.advice.insteadOf),
    blocked: c.blocked.map(({ next, waits, ...one }) => ({
      ...named(one),
      next,
      waits: waits === undefined ? null : { ...named(waits), ask: waits.ask ?? null },
    })),
    refused: c.advice.refused
      .filter(({ adjustment }) => !isGoneBack(bench, c, adjustment))
      .map((one) => ({
        ...named(one),
        less: c.ridden?.get(one.adjustment)?.less ?? null,
        ridden: c.ridden?.has(one.adjustment) === true,
      })),
    next:
      top === undefined
        ? null
        : {
            question: byId(top.question),
            ask: rules.questions[top.question]!.ask,
            how: rules.questions[top.question]!.how,
            bits: round(top.bits, 4),
            minutes: rules.questions[top.question]!.minutes,
          },
    stop: c.stop ?? null,
    fit: c.fit === undefined ? null : { z: round(c.fit.z, 3), reask: c.fit.reask.map(byId) },
    assignments: assignmentsOf(model, kase, c),
    offTarget: offTargetOf(bench, kase, c),
    ...(trades.length === 0 ? {} : { trades }),
    ...(verdict === 'stop'
      ? { found: c.heard.dangers.map(({ question, answer }) => ({ question, answer })) }
      : {}),
    ...(leftIn === undefined ? {} : { leftIn: leftIn.before }),
    trials: c.trials.map((t) => {
      const moved = t.decibans.reduce(
        (best, db, i) => (Math.abs(db) > Math.abs(t.decibans[best]!) ? i : best),
        0,
      );
      return {
        change: printDeed(t.change),
        what: t.change,
        outcome: t.outcome,
        cause: rules.causes[moved]!.id,
        decibans: round(t.decibans[moved]!, 2),
      };
    }),
    cautions: cautionsFor(
      rules,
      wanted,
      // A look or a measurement changes nothing.
      first !== null && c.advice.verdict !== 'stop' && adjustments[0]!.feelsBetter !== null,
      warned,
    ).map(({ id, level, text, textAt }) => ({
      id,
      level,
      text: (end === undefined ? undefined : textAt?.[end]) ?? text,
      ...(warned.includes(id) ? { likely: true as const } : {}),
    })),
    unconfirmed: extras.unconfirmed ?? [],
    complaints: complaintsOf(model, bench, c, extras.readings ?? []).map(
      ({ phrase, told, neverNormal, helped, instead, ask }) => {
        const promise = helped === null ? null : promised(helped, likely, rules.numbers.advice);
        // What the first change is for needs no question.
        const asks =
          extras.sparing === true && (promise === 'fix' || promise === 'aimed') ? undefined : ask();
        return {
          phrase,
          told,
          neverNormal,
          helped: helped === null ? null : round(helped),
          promise,
          instead: instead === undefined ? null : inWords(rules.adjustments[instead]!),
          ask: asks === undefined ? null : byId(asks),
        };
      },
    ),
    ...askedOf(model, bench, c, extras.wishes),
    warnings: [...(extras.warnings ?? []), ...leftOut(model, c)],
  };
}

function inWords({ id, do: what, plain }: CompiledRules['adjustments'][number]) {
  return { id, do: what, plain };
}

/** The number that an answer was made of, as it is written. */
function measuredOf({ answers }: Case, question: string): { readonly measured?: string } {
  const measured = answers.find((a) => a.question === question)?.measured;
  return measured === undefined ? {} : { measured: writeNumber(measured.value, measured.unit) };
}

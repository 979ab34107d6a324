/** An adjustment that is advised, as a result holds it. */
import { cautionsOf } from '../../advice/cautions.ts';
import { chance, chanceFelt, likeliestCured } from '../../advice/help-harm.ts';
import type { Step } from '../../advice/feasibility.ts';
import { given } from '../../advice/hold-back.ts';
import type { PreparedBike } from '../../advice/prepared-bike.ts';
import { repeatWords } from '../../advice/step/repeat.ts';
import { printChange } from '../../bike/change.ts';
import type { Case } from '../../casework/case.ts';
import type { Consultation } from '../../casework/consult.ts';
import { roundsOfCase } from '../../casework/retold.ts';
import { riddenBefore } from '../../casework/ridden-before.ts';
import { triedInVain } from '../../casework/ridden-in-vain.ts';
import { undoneWords } from '../../casework/undone.ts';
import { endsNoticed } from '../../casework/which-end.ts';
import type { Model } from '../../diagnosis/model.ts';
import { statedOf } from '../../diagnosis/none.ts';
import { fraction, withoutStop } from '../../form/text.ts';
import type { Adjustment } from '../../rulebase/compiled-adjustment.ts';
import { reasonIn } from '../../rulebase/reasons.ts';
import { riddenLines } from '../bike/ridden-text.ts';
import { noteOf } from '../phrases.ts';
import { putBack, putBackBefore } from './put-back-of.ts';
import { TARGET, type ResultAdjustment } from './result.ts';
import { round } from '../round.ts';
import { hasFigure, untilMeasured, untilUsual, untilWords } from '../verdict/until-words.ts';

/** @param advised, its expected worth in fixes, and what the physical model says it does besides, in lines */
export function adjustmentOf(
  model: Model,
  bench: PreparedBike,
  kase: Case,
  c: Consultation,
  {
    adjustment: index,
    worth,
    knockOn,
  }: { readonly adjustment: number; readonly worth: number; readonly knockOn: readonly string[] },
): ResultAdjustment {
  const a = asTold(bench.rules.adjustments[index]!, c);
  if (a.kind === 'put-back' && c.back !== undefined) return putBack(model, bench, c, a, c.back, kase.answers);
  const possible = bench.possible[index]!;
  const step = possible.can ? possible.step : undefined;
  const prospect = bench.prospect(index);
  const change = step === undefined ? null : printChange([step]);
  const helps = round((1 - c.none) * chance(c.belief, prospect.helps));
  const felt = (report: 'better' | 'worse'): number | null =>
    a.kind === 'measure' || a.minutes === 0
      ? null
      : round(chanceFelt(model, c.averaged(), c.none, { prospect, report }));
  const rounds = roundsOfCase(kase);
  const cause = likeliestCured(bench, c.belief, index);
  const heed = [
    onlyIf(bench, a),
    triedBefore(bench, c, a),
    notRead(model, c, a),
    ...(index === c.advice.first ? [] : [otherWheel(model, c, a)]),
  ];
  const likely = cause === undefined ? null : round(statedOf(c.belief, c.none, cause));
  const back = index === c.advice.first ? putBackBefore(model, bench, c) : undefined;
  const undone = index === c.advice.first ? undoneWords(model, c) : undefined;
  return {
    id: a.id,
    do: undone === undefined ? a.do : `${a.do}: ${undone}`,
    plain: undone === undefined ? a.plain : `${a.plain} That is: ${undone}.`,
    cures: cause === undefined ? null : bench.rules.causes[cause]!.id,
    likely,
    change,
    setting: step?.setting ?? null,
    by: step?.by ?? null,
    unit: step?.unit ?? null,
    amount:
      step?.share === undefined
        ? null
        : reasonIn(bench.rules.reasons, 'share-of-gauge', { share: fraction(step.share) }),
    from: step?.from === undefined ? null : round(step.from, 2),
    to: step?.to === undefined ? null : round(step.to, 2),
    positions: step?.names ?? null,
    helps,
    harms: round(chance(c.belief, prospect.harms)),
    feelsBetter: felt('better'),
    feelsWorse: felt('worse'),
    benefit: round(worth),
    minutes: a.minutes,
    before: back?.before ?? null,
    wayBack: back === undefined ? a.wayBack : `${withoutStop(a.wayBack)}. What was put back: ${back.wayBack}`,
    feel: a.feel,
    note: noteOf(
      ...heed,
      possible.can && !(possible.look === true && wasSeen(model, bench, c, index))
        ? possible.note
        : undefined,
      step === undefined ? undefined : goesOn(bench, kase, c, { adjustment: a, step }),
      a.onceKept === undefined
        ? undefined
        : reasonIn(bench.rules.reasons, 'once-kept', { check: a.onceKept }),
    ),
    heed: noteOf(...heed),
    writeDown: numbersOf(model, bench, a),
    // Without a sheet too: the step is then what the rules turn at once.
    cautions: [...new Set([...(back?.cautions ?? []), ...cautionsOf(a, c.heard.known, step)])],
    knockOn: [...knockOnHere(bench, a), ...knockOn],
    ridden:
      step === undefined
        ? []
        : riddenLines(
            riddenBefore(rounds, { changes: [step!] }),
            { likely: likely ?? helps, first: index === c.advice.first },
            bench,
          ),
  };
}

/** In the words for what was answered, where the rule has others for that. */
function asTold(adjustment: Adjustment, { heard: { known } }: Consultation): Adjustment {
  const fitting = adjustment.wordedWhen?.find(({ answers }) => answers.some((one) => given(one, known)));
  return fitting === undefined ? adjustment : { ...adjustment, ...fitting.words };
}

/** Until when a step is repeated: by a figure of the sheet or one that was measured, else by what is felt or read. */
function goesOn(
  { sheet, rules }: PreparedBike,
  kase: Case,
  { heard: { known }, tried: { effects } }: Consultation,
  { adjustment, step }: { readonly adjustment: Adjustment; readonly step: Step },
): string | undefined {
  if (sheet !== undefined && hasFigure(step, sheet)) return untilWords(step, sheet);
  const usual =
    sheet !== undefined && adjustment.kind === 'tyre'
      ? untilUsual(step, sheet, rules, adjustment.repeat)
      : undefined;
  if (usual !== undefined) return usual ?? undefined;
  const measured =
    sheet === undefined ? untilMeasured(step, kase.answers, rules, adjustment.repeat) : undefined;
  const bike = sheet ?? kase.has?.bike;
  return measured ?? repeatWords(adjustment, step, { rules, bike, known, tried: effects });
}

/** A change that did not help before is not advised again without saying so. */
function triedBefore(bench: PreparedBike, c: Consultation, adjustment: Adjustment): string | undefined {
  const before = triedInVain(bench, c.tried.effects, adjustment);
  if (before === undefined) return undefined;
  const how = before.tried.result === 'worse' ? 'made it worse' : 'made no difference';
  return `this was tried before and ${how}; the answers still point to it`;
}

/** Of a measurement that could not be taken when it was asked for. */
function notRead({ rules, questionIndex }: Model, { heard }: Consultation, { reads }: Adjustment) {
  const asked = reads === undefined ? undefined : questionIndex.get(reads);
  return asked !== undefined && heard.cannotTell.includes(asked)
    ? reasonIn(rules.reasons, 'read-later')
    : undefined;
}

/** Of what only one kind of spring has, where nobody said which one there is. */
function onlyIf({ fact }: PreparedBike, { needs, end }: Adjustment): string | undefined {
  const kinds = Object.entries(needs).flatMap(([path, values]) =>
    path.endsWith('.spring') && fact(path) === undefined ? values : [],
  );
  if (kinds.length !== 1) return undefined;
  return `only if the ${end} has ${kinds[0] === 'air' ? 'an air spring' : `a ${kinds[0]} spring`}`;
}

/** What puts what was measured on the bike sheet, with the target where that is not there either. */
function numbersOf({ rules }: Model, { sheet }: PreparedBike, { reads }: Adjustment): string[] {
  const question = rules.questions.find(({ id }) => id === reads);
  const setting = rules.settings.find(({ id }) => id === question?.measures);
  if (sheet === undefined || setting?.end === undefined || setting.sheet !== 'sag') return [];
  const key = `${setting.end}.sag`;
  return [`${key}=N%`, ...(sheet.ends[setting.end].sagWanted === undefined ? [`${key}${TARGET}`] : [])];
}

/** Whether a look on the stand found what it cures: then the bike has it. */
function wasSeen(
  { rules }: Model,
  bench: PreparedBike,
  { heard }: Consultation,
  adjustment: number,
): boolean {
  const { cures } = bench.effect(adjustment);
  return heard.evidence.some(({ question, answer }) => {
    const { how, links } = rules.questions[question]!;
    return how === 'stand' && links.some(([cause, sign]) => sign === answer && cures[cause]! > 0);
  });
}

/** What else it does on this bike, as one line: nothing is said of a knob that it has not. */
function knockOnHere({ fact }: PreparedBike, { knockOn, knockOnWith = [] }: Adjustment): string[] {
  const own = knockOnWith.flatMap(([path, text]) => (fact(path) === 'none' ? [] : [text]));
  const all = [...(knockOn === undefined ? [] : [knockOn]), ...own];
  return all.length === 0 ? [] : [all.join('; ')];
}

/** Of an idea that waits, for the wheel of which nothing was noticed: why it is looked for there at all. */
function otherWheel({ rules }: Model, { heard }: Consultation, { end }: Adjustment): string | undefined {
  const [noticed, ...both] = endsNoticed(rules.questions, heard.evidence, 'anywhere');
  if (noticed === undefined || both.length > 0 || end === undefined || end === noticed) return undefined;
  return reasonIn(rules.reasons, 'other-wheel', { end: noticed });
}

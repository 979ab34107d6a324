/** One adjustment of a result: what to do on this bike, what for, how likely it helps and harms, and the way back. */
import { withoutStop } from '../form/full-stop.ts';
import { chance, chanceFelt, chancesOf, likeliestCured } from '../advice/help-harm.ts';
import type { PreparedBike } from '../advice/prepared-bike.ts';
import { cautionsOf } from '../advice/cautions.ts';
import { printChange, wayBack, type Change, type ChangeUnit } from '../bike/change.ts';
import { dialOf } from '../bike/setting-access.ts';
import { settingWords } from '../bike/setting-words.ts';
import { untilWords } from './until-words.ts';
import type { Case } from '../casework/case.ts';
import type { Consultation } from '../casework/consult.ts';
import { undoneWords } from '../casework/undone.ts';
import type { TriedEffect } from '../casework/tried/weigh-tried.ts';
import type { Adjustment } from '../rulebase/compiled.ts';
import type { Model } from '../diagnosis/model.ts';
import { roundsOfCase } from '../casework/retold.ts';
import { riddenBefore } from '../casework/ridden-before.ts';
import { round } from './round.ts';
import { statedOf } from '../diagnosis/none.ts';
import { riddenLines } from './bike/ridden-text.ts';

export interface ResultAdjustment {
  readonly id: string;
  readonly do: string;
  /** the same for a rider without a workshop: which way to turn, and what to count */
  readonly plain: string;
  /** the likeliest cause it is for */
  readonly cures: string | null;
  /** chance of that cause, the same that is told of it among the causes; null where it is for none */
  readonly likely: number | null;
  /** change notation, e.g. front.rebound.low+2; null when it is not a number on the bike */
  readonly change: string | null;
  /** the same as data: what is turned, how far (+ is more open, more pressure, higher), and in what */
  readonly setting: string | null;
  readonly by: number | null;
  readonly unit: ChangeUnit | null;
  readonly from: number | null;
  readonly to: number | null;
  /** the names of what it can stand at, by number from 0; null for what is counted */
  readonly positions: readonly string[] | null;
  /** chance that it cures something that is off, and that it spoils something */
  readonly helps: number;
  readonly harms: number;
  /** chance that the rider reports better, and worse, after one step of it; null where nothing is changed */
  readonly feelsBetter: number | null;
  readonly feelsWorse: number | null;
  /** expected worth in fixes, trial and minutes paid */
  readonly benefit: number;
  readonly minutes: number;
  readonly wayBack: string;
  readonly feel: string;
  readonly note: string | null;
  /** what of the note is told wherever this is listed: a bike it is only for, and that it was tried in vain */
  readonly heed: string | null;
  /** the numbers that it finds out, as `earshot bike set` takes them: `front.sag=N%`; usually empty */
  readonly writeDown: readonly string[];
  readonly cautions: readonly string[];
  readonly knockOn: readonly string[];
  /** why it is advised although a trial did not keep it, or although it takes a kept change back; usually empty */
  readonly ridden: readonly string[];
}

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
  const a = bench.rules.adjustments[index]!;
  if (a.kind === 'put-back' && c.back !== undefined) return putBack(model, bench, c, a, c.back);
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
  const heed = [onlyIf(bench, a), triedBefore(c, a)];
  const likely = cause === undefined ? null : round(statedOf(c.belief, c.none, cause));
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
    from: step?.from === undefined ? null : round(step.from, 2),
    to: step?.to === undefined ? null : round(step.to, 2),
    positions: step?.names ?? null,
    helps,
    harms: round(chance(c.belief, prospect.harms)),
    feelsBetter: felt('better'),
    feelsWorse: felt('worse'),
    benefit: round(worth),
    minutes: a.minutes,
    wayBack: a.wayBack,
    feel: a.feel,
    note: notes(
      ...heed,
      possible.can && !(possible.look === true && wasSeen(model, bench, c, index))
        ? possible.note
        : undefined,
      step === undefined || bench.sheet === undefined ? undefined : untilWords(step, bench.sheet),
    ),
    heed: notes(...heed),
    writeDown: numbersOf(model, bench, a),
    // Without a sheet too: the step is then what the rules turn at once.
    cautions: cautionsOf(a, c.heard.known, step),
    knockOn: [...(a.knockOn === undefined ? [] : [a.knockOn]), ...knockOn],
    ridden:
      step === undefined
        ? []
        : riddenLines(
            riddenBefore(rounds, { changes: [step!] }),
            { likely: likely ?? helps, first: index === c.advice.first },
            bench.sheet,
          ),
  };
}

/** What is turned, where something is. */
export function changeOf({
  setting,
  by,
  unit,
}: Pick<ResultAdjustment, 'setting' | 'by' | 'unit'>): Change | undefined {
  return setting === null || by === null || unit === null ? undefined : { setting, by, unit };
}

/** Whether what is put back first turns the same thing the same way: how much more it takes is known after that. */
export function isPutBackAlready(bench: PreparedBike, c: Consultation, adjustment: number): boolean {
  const { kind, change } = bench.rules.adjustments[adjustment]!;
  if (c.advice.because !== 'put-back' || c.back === undefined || kind === 'put-back') return false;
  return wayBack(c.back.couldBe ?? c.back.changes).some(
    ({ setting, by }) => change?.setting === setting && Math.sign(by) === Math.sign(change.by),
  );
}

/** What was tried is taken back: the step the other way, and what that does. */
function putBack(
  model: Model,
  bench: PreparedBike,
  c: Consultation,
  a: Adjustment,
  back: TriedEffect,
): ResultAdjustment {
  const { effects, changes, tried } = back;
  const step = wayBack(changes);
  // It is that step, whatever it is for, and has that step's dangers.
  const same = bench.rules.adjustments.filter(({ change }, i) =>
    wayBack(back.couldBe ?? changes).some(
      ({ setting, by }) =>
        bench.possible[i]!.can && change?.setting === setting && Math.sign(change.by) === Math.sign(by),
    ),
  );
  const far = back.loose !== true && (tried.by !== undefined || tried.change !== undefined);
  const each = effects.map((effect) =>
    chancesOf(model, c.belief, { cures: effect.brings, brings: effect.cures }),
  );
  const helps = mean(each.map((one) => one.helps));
  const harms = mean(each.map((one) => one.harms));
  const { helped, nothing, harmed } = model.rules.numbers.results;
  const after = (report: 'better' | 'worse'): number =>
    helps * helped[report] + harms * harmed[report] + Math.max(0, 1 - helps - harms) * nothing[report];
  const words = (setting: string): string =>
    bench.rules.settings.find(({ id }) => id === setting)?.name ?? settingWords(setting, bench.sheet);
  const what = step.length === 1 && far ? words(step[0]!.setting) : back.back;
  const one = far && step.length === 1 ? onTheBike(bench, step[0]!) : undefined;
  return {
    id: a.id,
    do: `${a.do}: ${what}`,
    plain: `${withoutStop(a.plain)}: ${what}`,
    cures: null,
    likely: null,
    change: one !== undefined ? printChange([one]) : far && step.length > 0 ? printChange(step) : null,
    setting: one?.setting ?? null,
    by: one?.by ?? null,
    unit: one?.unit ?? null,
    from: one?.from ?? null,
    to: one?.to ?? null,
    positions: null,
    helps: round(helps),
    harms: round(harms),
    feelsBetter: round(after('better')),
    feelsWorse: round(after('worse')),
    benefit: 0,
    minutes: a.minutes,
    wayBack: a.wayBack,
    feel: a.feel,
    note: notes(
      one?.note,
      same.some(({ kind }) => kind === 'pressure' || kind === 'preload')
        ? 'then measure sag again'
        : undefined,
    ),
    heed: null,
    writeDown: [],
    cautions: [...new Set([a, ...same].flatMap((one) => cautionsOf(one, c.heard.known)))],
    knockOn: a.knockOn === undefined ? [] : [a.knockOn],
    ridden: [],
  };
}

/** The way back where the sheet says what it stands at: never past a stop. */
function onTheBike(
  { sheet }: PreparedBike,
  step: Change,
): Change & { readonly from?: number; readonly to?: number; readonly note?: string } {
  const dial = sheet === undefined ? undefined : dialOf(sheet, step);
  if (dial === undefined || 'message' in dial || dial.now === undefined) return step;
  const to = Number(Math.min(dial.max, Math.max(dial.min, dial.now + step.by)).toFixed(3));
  const by = Number((to - dial.now).toFixed(3));
  if (by === 0) return step;
  const cut = Math.abs(by - step.by) > 1e-6;
  return {
    ...step,
    by,
    from: round(dial.now, 2),
    to: round(to, 2),
    ...(cut ? { note: `there is no more room than that before ${by < 0 ? dial.minIs : dial.maxIs}` } : {}),
  };
}

/** A change that did not help before is not advised again without saying so. */
function triedBefore(c: Consultation, { change, id }: Adjustment): string | undefined {
  const before = c.tried.effects.findLast(
    ({ tried, changes, change: named }) =>
      (tried.result === 'same' || tried.result === 'worse') &&
      (('name' in named && named.name === id) ||
        changes.some((one) => one.setting === change?.setting && one.by > 0 === change.by > 0)),
  );
  if (before === undefined) return undefined;
  const how = before.tried.result === 'worse' ? 'made it worse' : 'made no difference';
  return `this was tried before and ${how}; it stands here because the answers still point to it`;
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
  return [`${key}=N%`, ...(sheet.ends[setting.end].sagWanted === undefined ? [`${key}.wanted=N%`] : [])];
}

function notes(...all: readonly (string | undefined)[]): string | null {
  const said = all.filter((note) => note !== undefined);
  return said.length === 0 ? null : said.join('; ');
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

const mean = (all: readonly number[]): number => all.reduce((sum, x) => sum + x, 0) / all.length;

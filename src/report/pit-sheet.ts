/** Everything that stands on a pit sheet, in words and numbers; its printed forms add nothing but layout. */
import type { BikeSheet } from '../bike/sheet.ts';
import type { CompiledRules } from '../rulebase/compiled.ts';
import { decibanNumber, decibanWords } from './decibans.ts';
import { printable } from './foreign-text.ts';
import { inTen, percent, stepWords, withStep } from './phrases.ts';
import type { SheetPhysics } from './pit-sheet-physics.ts';
import { settingRows, type SettingRow } from './pit-sheet-settings.ts';
import { paperTrial, type PaperTrial } from './pit-sheet-trial.ts';
import type { Result, ResultCaution, ResultCause } from './result.ts';

export interface Weight {
  readonly question: string;
  readonly answer: string;
  readonly decibans: number;
  /** `+4.9 dB`, `3.1 times as likely` */
  readonly number: string;
  readonly words: string;
}

export interface PitSheet {
  readonly case: string;
  readonly bike: string | null;
  readonly said: string | null;
  readonly rules: string;
  readonly verdict: Result['verdict'];
  /** what to do, in one line, and what follows from it */
  readonly headline: string;
  readonly about: readonly string[];
  /** label → text, of the first adjustment */
  readonly first: readonly (readonly [label: string, text: string])[];
  /** the cause that the first adjustment is for, or the nearest one when there is none */
  readonly why: {
    readonly heading: string;
    readonly cause: string;
    readonly before: string;
    readonly now: string;
    /** heaviest first */
    readonly weights: readonly Weight[];
    /** how many of them are listed; the others only as a sum */
    readonly shown: number;
    readonly others: readonly string[];
  } | null;
  readonly settings: readonly SettingRow[];
  readonly trial: PaperTrial | null;
  readonly physics: SheetPhysics | null;
  /** why there are no drawings */
  readonly undrawn: string | null;
  readonly knockOn: readonly string[];
  readonly waiting: readonly string[];
  readonly ridersList: readonly string[];
  readonly cautions: readonly ResultCaution[];
  readonly notes: readonly string[];
}

export interface PitSheetInput {
  readonly rules: CompiledRules;
  /** with every cause and its evidence listed */
  readonly result: Result;
  /** share of each cause, in the order of the rules, that the first adjustment cures */
  readonly cures: Float64Array | undefined;
  readonly sheet: BikeSheet | undefined;
  readonly physics: SheetPhysics | null;
}

/** Room on one page: characters of a text, and lines of a list. */
const ROOM = {
  id: 80,
  said: 300,
  text: 200,
  weights: 7,
  others: 3,
  waiting: 2,
  asked: 6,
  phrases: 2,
  notes: 4,
} as const;

export function pitSheet({ rules, result: r, cures, sheet, physics }: PitSheetInput): PitSheet {
  const first = r.verdict === 'stop' ? undefined : r.adjustments.find((a) => a.id === r.first);
  const step =
    first === undefined ? '' : [stepWords(first), first.note ?? ''].filter((part) => part !== '').join('; ');
  const trial =
    first === undefined
      ? null
      : paperTrial(r.case, (id) => rules.settings.find((s) => s.id === id)?.name ?? id, first, sheet);
  const after = trial?.can === true ? trial.after : undefined;
  return {
    case: printable(r.case, ROOM.id),
    bike: r.bike === null ? null : printable(r.bike, ROOM.id),
    said: r.said === null ? null : printable(r.said, ROOM.said),
    rules: `${r.rules.name} ${r.rules.version} (${r.rules.digest.slice(0, 12)})`,
    verdict: r.verdict,
    ...headline(r),
    first:
      first === undefined
        ? []
        : [
            ...(step === '' ? [] : [['How far', step] as const]),
            ['Odds', `helps in ${inTen(first.helps)}, makes it worse in ${inTen(first.harms)}`],
            ['Takes', `${first.minutes} min`],
            ['Feel for', printable(first.feel, ROOM.text)],
            ['Way back', printable(first.wayBack, ROOM.text)],
          ],
    why: r.verdict === 'stop' ? null : why(rules, r, cures),
    settings: settingRows(
      sheet,
      after,
      trial?.can === true && trial.relative && first !== undefined
        ? { setting: trial.pen.setting, words: stepWords(first).replace(' from where it stands', '') }
        : undefined,
    ),
    trial,
    physics,
    undrawn: undrawn(first !== undefined, sheet !== undefined, physics),
    knockOn: [...(first?.knockOn ?? []).map((k) => printable(k, ROOM.text)), ...(physics?.knockOn ?? [])],
    waiting: r.verdict === 'stop' ? [] : waiting(r),
    ridersList: r.verdict === 'stop' ? [] : ridersList(rules, r),
    cautions: r.cautions.map((c) => ({ ...c, text: printable(c.text, 2 * ROOM.text) })),
    notes: leftOut(
      [...r.warnings, ...(physics?.notes ?? [])].map((n) => printable(n, ROOM.text)),
      ROOM.notes,
    ),
  };
}

function headline(r: Result): Pick<PitSheet, 'headline' | 'about'> {
  const first = r.adjustments.find((a) => a.id === r.first);
  switch (r.verdict) {
    case 'stop':
      return {
        headline: 'Do not ride this bike, do not tune around it',
        about: first === undefined ? [] : [printable(`${first.do}.`, ROOM.text)],
      };
    case 'change':
      return {
        headline: printable(first?.do ?? '', ROOM.text),
        about:
          r.because === 'repair-first'
            ? ['Repair comes before any click: a worn part makes every setting feel wrong.']
            : r.insteadOf === null
              ? []
              : [
                  printable(
                    `${r.insteadOf.do} would have been first, but ${r.insteadOf.why}; this is the next rung.`,
                    ROOM.text,
                  ),
                ],
      };
    case 'leave':
      return {
        headline: 'Leave it alone',
        about: [
          `Nothing on the bike looks off (${percent(r.nothing)}). That is an answer: the settings are not what the rider felt, or the ride was as it should be.`,
        ],
      };
    case 'unknown':
      return {
        headline: 'Not known yet: change nothing',
        about: [`No change is worth its trial so far. Nothing off: ${percent(r.nothing)}.`],
      };
  }
}

function why(rules: CompiledRules, r: Result, cures: Float64Array | undefined): PitSheet['why'] {
  const index = new Map(rules.causes.map((c, i) => [c.id, i]));
  const worth = (c: ResultCause): number => c.probability * (cures?.[index.get(c.id)!] ?? 1);
  const cause = r.causes.reduce<ResultCause | undefined>(
    (best, c) => (best === undefined || worth(c) > worth(best) ? c : best),
    undefined,
  );
  if (cause === undefined) return null;
  const told = cause.evidence
    .filter((e) => Math.abs(e.decibans) >= 0.05)
    .sort((a, b) => Math.abs(b.decibans) - Math.abs(a.decibans));
  return {
    heading: { change: 'Why', leave: 'The strongest rival', unknown: 'Nearest so far', stop: '' }[r.verdict],
    cause: capital(printable(cause.name, ROOM.text)),
    before: percent(rules.causes[index.get(cause.id)!]!.prior),
    now: percent(cause.probability),
    weights: told.map((e) => ({
      ...inWords(rules, e.question, e.answer),
      decibans: e.decibans,
      number: decibanNumber(e.decibans),
      words: decibanWords(e.decibans),
    })),
    shown: ROOM.weights,
    others: [
      `nothing off ${percent(r.nothing)}`,
      ...r.causes
        .filter((c) => c !== cause)
        .slice(0, ROOM.others)
        .map((c) => `${printable(c.name, ROOM.id)} ${percent(c.probability)}`),
    ],
  };
}

/** A question's and an answer's words; the bike sheet's and the trials' evidence in words of their own. */
function inWords(
  rules: CompiledRules,
  id: string,
  answerId: string,
): { readonly question: string; readonly answer: string } {
  const question = rules.questions.find((q) => q.id === id);
  if (question !== undefined) {
    const answer = question.answers.find((a) => a.id === answerId)?.text ?? answerId;
    return { question: capital(printable(question.ask, ROOM.text)), answer: printable(answer, ROOM.text) };
  }
  const setting = rules.settings.find((s) => `bike.${s.id}` === id);
  if (setting === undefined)
    return { question: capital(printable(id, ROOM.text)), answer: printable(answerId, ROOM.text) };
  const amount = answerId.replace('-', '−');
  const against = {
    clicks: `${amount} clicks against the maker's sheet`,
    sag: `sag ${amount} points of the travel against the one wanted`,
    tyre: `${amount} % pressure against the one wanted`,
  }[setting.sheet ?? 'clicks'];
  return {
    question: printable(`Bike sheet: ${setting.name}`, ROOM.text),
    answer: /^[+-]?0$/.test(answerId) ? 'as it should stand' : against,
  };
}

function undrawn(change: boolean, sheet: boolean, physics: SheetPhysics | null): string | null {
  if (!change || physics?.row !== undefined) return null;
  if (!sheet)
    return 'No drawings: the case names no bike sheet, so there is no model of this bike. Write one, and the curve and the row of bumps stand here.';
  return physics === null ? 'No drawings: this is no change of a number on the bike.' : null;
}

function waiting(r: Result): string[] {
  return r.adjustments
    .filter((a) => a.id !== r.first)
    .slice(0, ROOM.waiting)
    .map((a) => printable(`${a.do}${withStep(a)}; helps in ${inTen(a.helps)}`, ROOM.text));
}

function ridersList(rules: CompiledRules, r: Result): readonly string[] {
  const ask = new Map(rules.questions.map((q) => [q.id, q.ask]));
  const all = [
    ...(r.fit?.reask ?? []).map((id) => `The story does not hang together. Ask again: ${ask.get(id) ?? id}`),
    ...r.assignments.map((a) => a.text),
    ...(r.next === null || r.stop === 'dry' ? [] : [r.next.ask]),
    ...notCounted(ask, r),
  ].map((text) => capital(printable(text, ROOM.text)));
  return leftOut(all, ROOM.asked);
}

/** The first of a list, and a line that says how many were left out. */
export function leftOut(list: readonly string[], most: number): readonly string[] {
  const more = list.length - most;
  return more > 0 ? [...list.slice(0, most), `And ${more} more in the case.`] : list;
}

/** What the weights that are not listed come to, together; null when all are. */
export function restOf({ weights, shown }: NonNullable<PitSheet['why']>): string | null {
  const rest = weights.slice(shown);
  const sum = rest.reduce((total, w) => total + w.decibans, 0);
  return rest.length === 0 ? null : `${rest.length} smaller ones together: ${decibanNumber(sum)}`;
}

/** What the rider said and nobody asked about: the question that would settle it, where there is one. */
function notCounted(ask: ReadonlyMap<string, string>, r: Result): string[] {
  return r.unconfirmed
    .slice(0, ROOM.phrases)
    .map(
      ({ phrase, question }) =>
        `Said “${printable(phrase, ROOM.id)}”, not counted yet: ${(question === null ? undefined : ask.get(question)) ?? 'it can mean several things; ask which.'}`,
    );
}

function capital(text: string): string {
  return `${text.slice(0, 1).toUpperCase()}${text.slice(1)}`;
}

/** Everything that stands on a pit sheet, in words and numbers; its printed forms add nothing but layout. */
import { amountWords } from '../../bike/setting-words.ts';
import type { BikeSheet } from '../../bike/sheet.ts';
import type { CompiledRules } from '../../rulebase/compiled.ts';
import { alarmsOf, alarmTexts, quietPhrases } from '../verdict/alarms.ts';
import { cutList, type CutList } from './cut-list.ts';
import { printable } from '../foreign-text.ts';
import { chancesWords, heedWords, likelyWords, stepWords, withStep } from '../phrases.ts';
import { capital } from '../../form/text.ts';
import { whyOf, type Why } from './evidence.ts';
import type { SheetPhysics } from './physics.ts';
import { whereIs } from '../plain-words.ts';
import { aimedAt } from '../verdict/complaint-lines.ts';
import { orderTexts } from '../verdict/step-lines.ts';
import { refusedLines, unknownHead, verdictTexts } from '../verdict/verdict-lines.ts';
import type { Voice } from '../verdict/voice.ts';
import { settingRows, type SettingRow } from './settings.ts';
import { feelingsFor } from '../../trials/trial.ts';
import { paperTrial, type Entered, type PaperTrial } from './trial.ts';
import { firstOf, type Result, type ResultCaution } from '../result/result.ts';

export interface PitSheet {
  readonly case: string;
  readonly bike: string | null;
  readonly said: string | null;
  readonly rules: string;
  readonly verdict: Result['verdict'];
  /** what must be checked before riding */
  readonly alarms: readonly string[];
  /** what to do, in one line, and what follows from it */
  readonly headline: string;
  readonly about: readonly string[];
  /** label → text, of the first adjustment */
  readonly first: readonly (readonly [label: string, text: string])[];
  readonly why: Why | null;
  readonly settings: readonly SettingRow[];
  readonly trial: PaperTrial | null;
  readonly physics: SheetPhysics | null;
  /** why there are no drawings */
  readonly undrawn: string | null;
  readonly knockOn: readonly string[];
  readonly waiting: readonly string[];
  readonly ridersList: CutList;
  readonly cautions: readonly ResultCaution[];
  readonly notes: CutList;
}

export interface PitSheetInput {
  readonly rules: CompiledRules;
  /** with every cause and its evidence listed */
  readonly result: Result;
  readonly sheet: BikeSheet | undefined;
  readonly physics: SheetPhysics | null;
  /** for a rider alone: where the knob is, and no word of drawings */
  readonly plain?: boolean;
  /** how the ratings of its trial come into the log; absent where no file of the bike is known */
  readonly entered?: Entered | undefined;
}

/** Room on one page: characters of a text, and lines of a list. */
const ROOM = {
  id: 80,
  said: 300,
  text: 200,
  /** what comes out of the rules: longer, and never from a stranger */
  rule: 500,
  waiting: 2,
  asked: 6,
  phrases: 2,
  notes: 4,
} as const;

export function pitSheet({
  rules,
  result: r,
  sheet,
  physics,
  plain = false,
  entered,
}: PitSheetInput): PitSheet {
  const first = r.verdict === 'stop' ? undefined : firstOf(r);
  const step =
    first === undefined ? '' : [stepWords(first), first.note ?? ''].filter((part) => part !== '').join('; ');
  const trial =
    first === undefined
      ? null
      : paperTrial(
          r.case,
          (id) => rules.settings.find((s) => s.id === id)?.name ?? id,
          first,
          sheet,
          { feelings: feelingsFor(rules.feelings, aimedAt(r)), rideRules: rules.rideRules },
          entered,
        );
  const audience = plain ? 'rider' : 'mechanic';
  const alarms = alarmsOf(r, rules, audience);
  const where = plain && first !== undefined ? whereIs(first, rules) : undefined;
  const after = trial?.can === true ? trial.after : undefined;
  return {
    case: printable(r.case, ROOM.id),
    bike: r.bike === null ? null : printable(r.bike, ROOM.id),
    said: r.said === null ? null : printable(r.said, ROOM.said),
    rules: printable(`${r.rules.name} ${r.rules.version} (${r.rules.digest.slice(0, 12)})`, ROOM.text),
    verdict: r.verdict,
    alarms: alarmTexts(alarms),
    ...headline(r, { rules, audience }),
    first:
      first === undefined
        ? []
        : [
            ...(first.before === null
              ? []
              : [['Before it', printable(plain ? first.before.plain : first.before.do, ROOM.rule)] as const]),
            ...(step === '' ? [] : [['How far', step] as const]),
            ...(where === undefined ? [] : [['Where', where] as const]),
            ['Odds', chancesWords(first)],
            ['Takes', `${first.minutes} min`],
            ['Feel for', printable(first.feel, ROOM.rule, 'in the rules')],
            ['To undo', printable(first.wayBack, ROOM.rule, 'in the rules')],
          ],
    why: r.verdict === 'stop' ? null : whyOf(rules, r),
    settings: settingRows(
      sheet,
      after,
      trial?.can === true && trial.relative && first !== undefined
        ? {
            setting: trial.pen.setting,
            words: amountWords(first.by! > 0, String(Math.abs(first.by!)), first.unit!),
          }
        : undefined,
    ),
    trial,
    physics,
    undrawn: plain ? null : undrawn(first !== undefined, sheet !== undefined, physics),
    knockOn: [...(first?.knockOn ?? []).map((k) => printable(k, ROOM.text)), ...(physics?.knockOn ?? [])],
    waiting: r.verdict === 'stop' ? [] : waiting(r),
    ridersList: cutList(
      { lines: r.verdict === 'stop' ? [] : ridersList(rules, r, alarms), more: 0 },
      ROOM.asked,
    ),
    // Where the model's numbers are worth little, that is said before any of them.
    cautions: [
      ...(physics?.warnings ?? []).map((text) => ({
        id: 'model',
        level: 'care' as const,
        text: printable(text, ROOM.rule),
      })),
      ...r.cautions.map((c) => ({ ...c, text: printable(c.text, ROOM.rule, 'in the rules') })),
    ],
    notes: cutList(
      {
        lines: [
          ...(first?.ridden ?? []),
          ...r.warnings,
          ...refusedLines(r, audience),
          ...(physics?.notes ?? []),
        ].map((n) => printable(n, ROOM.text)),
        more: 0,
      },
      ROOM.notes,
    ),
  };
}

function headline(r: Result, words: Voice): Pick<PitSheet, 'headline' | 'about'> {
  const about = verdictTexts(r, words).map((text) => printable(text, ROOM.rule));
  const first = firstOf(r);
  switch (r.verdict) {
    case 'stop':
      return {
        headline: 'STOP: do not ride this bike',
        about: first === undefined ? [] : [printable(`${first.do}.`, ROOM.rule)],
      };
    case 'change':
      return {
        headline: printable(first?.do ?? '', ROOM.rule),
        about: orderTexts(r).map((text) => printable(text, ROOM.rule)),
      };
    case 'leave':
      return { headline: 'Leave it alone', about };
    case 'unknown':
      return { headline: unknownHead(r), about };
  }
}

function undrawn(change: boolean, sheet: boolean, physics: SheetPhysics | null): string | null {
  if (!change || physics?.row !== undefined) return null;
  if (!sheet)
    return 'No plots: the case has no bike sheet. With one, the damper curve and the row of bumps go here.';
  return physics === null ? 'No plots: this change is not a number on the bike.' : null;
}

function waiting(r: Result): string[] {
  return r.adjustments
    .filter((a) => a.id !== r.first)
    .slice(0, ROOM.waiting)
    .map((a) => printable(`${a.do}${withStep(a)}: ${likelyWords(a)}.${heedWords(a)}`, ROOM.rule));
}

/** What to find out, each question once: what does not fit, what could not be told, what is asked next. */
function ridersList(rules: CompiledRules, r: Result, alarms: ReadonlyMap<string, string>): readonly string[] {
  const ask = new Map(rules.questions.map((q) => [q.id, q.ask]));
  const byQuestion = new Map<string, string>();
  for (const id of r.fit?.reask ?? [])
    byQuestion.set(id, `Some answers don't fit together. Ask again: ${ask.get(id) ?? id}`);
  for (const { question, text } of r.assignments)
    if (!byQuestion.has(question)) byQuestion.set(question, text);
  // What must be checked before riding stands on top already.
  if (r.next !== null && r.stop !== 'dry' && !alarms.has(r.next.question) && !byQuestion.has(r.next.question))
    byQuestion.set(r.next.question, r.next.ask);
  return [
    ...[...byQuestion.values()].map((text) => printable(text, ROOM.rule, 'in the rules')),
    ...notCounted(ask, quietPhrases(r.unconfirmed, rules, alarms)),
  ].map(capital);
}

/** What the rider said and nobody asked about: the question that would settle it, where there is one. */
function notCounted(ask: ReadonlyMap<string, string>, open: Result['unconfirmed']): string[] {
  return open
    .slice(0, ROOM.phrases)
    .map(
      ({ phrase, question }) =>
        `Said “${printable(phrase, ROOM.id)}”, not counted yet: ${(question === null ? undefined : ask.get(question)) ?? 'it can mean several things; ask which.'}`,
    );
}

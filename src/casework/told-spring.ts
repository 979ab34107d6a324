/**
 * The kind of spring at an end, where it was asked, or nobody said it and what was told can only be of one: psi and volume
 * spacers are of an air spring, turns of a collar and another coil of a coil. Common practice, no source.
 */
import { aimOfCoil, sagsTold } from '../advice/step/told-sag-step.ts';
import { coilShare } from '../physics/index.ts';
import { aspect, type ChangeUnit } from '../bike/change.ts';
import { changesOf } from '../bike/deed.ts';
import { unsaidBike } from '../bike/form/said.ts';
import { ENDS, type BikeSheet, type End, type EndSheet } from '../bike/sheet.ts';
import type { CompiledRules } from '../rulebase/compiled.ts';
import { CANNOT_TELL } from '../rulebase/compiled.ts';
import type { Case, Tried } from './case.ts';

type Kind = NonNullable<EndSheet['toldSpring']>;

/**
 * What was said of a bike without a sheet, with the springs that what was told is of.
 * @returns what was said as it was where nothing more is known
 */
export function withToldSprings(
  rules: Pick<CompiledRules, 'questions' | 'settings' | 'adjusters' | 'sheetCheck'>,
  { tried = [], answers, has }: Pick<Case, 'tried' | 'answers' | 'has'>,
): BikeSheet | undefined {
  const kinds = new Map<End, Set<Kind>>(ENDS.map((end) => [end, new Set()]));
  for (const one of tried) for (const [end, kind] of ofTried(rules, one)) kinds.get(end)!.add(kind);
  const preloaded = new Set<End>();
  for (const { question, answer, measured } of answers) {
    const asked = rules.questions.find(({ id }) => id === question);
    // Who read a pressure there, by itself or beside the sag, has air in it, and who read a rate a coil.
    if (asked?.end !== undefined && measured !== undefined) {
      if (measured.at !== undefined) kinds.get(asked.end)!.add('rate' in measured.at ? 'coil' : 'air');
      if (asked.gauge?.reads === 'spring') kinds.get(asked.end)!.add('air');
    }
    if (asked?.end !== undefined && asked.tells !== undefined) {
      const { spring, preload } = asked.tells[answer] ?? {};
      if (spring !== undefined) kinds.get(asked.end)!.add(spring);
      if (preload !== undefined) preloaded.add(asked.end);
      continue;
    }
    // What everybody says who notices nothing may be said of any spring.
    if (asked?.end === undefined || answer === CANNOT_TELL || answer === asked.answers[asked.default]?.id)
      continue;
    for (const { on, id, values } of asked.gates)
      if (on === 'bike' && id === `${asked.end}.spring` && values.length === 1 && isKind(values[0]))
        kinds.get(asked.end)!.add(values[0]);
  }
  // Who tells of both has mistaken one of them.
  const told = ENDS.flatMap((end) =>
    kinds.get(end)!.size === 1 ? [[end, [...kinds.get(end)!][0]!] as const] : [],
  );
  if (told.length === 0) return has?.bike;
  const bike = has?.bike ?? unsaidBike(rules.adjusters);
  const ends = { ...bike.ends };
  for (const [end, toldSpring] of told)
    ends[end] = {
      ...ends[end],
      toldSpring,
      ...(toldSpring === 'coil'
        ? preloaded.has(end)
          ? { toldPreload: 'beyond' as const }
          : turnsOf(rules, answers, end, bike)
        : {}),
    };
  return { ...bike, ends };
}

/** What its sag asks of the collar of a coil that nobody wound up. */
function turnsOf(
  rules: Pick<CompiledRules, 'questions' | 'sheetCheck'>,
  answers: Case['answers'],
  end: End,
  { kind }: BikeSheet,
): Pick<EndSheet, 'toldTurns'> {
  const sag = sagsTold(rules, answers).find((one) => one.end === end);
  if (sag === undefined) return {};
  const wanted = aimOfCoil(sag, rules.sheetCheck.near.sag);
  return { toldTurns: Math.round(coilShare({ ...sag, kind, wanted }, 1).turns) };
}

function isKind(value: string | undefined): value is Kind {
  return value === 'air' || value === 'coil';
}

/** Of a spring or its ramp-up, turned in a unit that only one kind has. */
function ofTried(
  { settings }: Pick<CompiledRules, 'settings'>,
  { change, setting = '', end, unit }: Tried,
): (readonly [End, Kind])[] {
  const turned =
    change !== undefined
      ? changesOf(change)
      : unit === undefined
        ? []
        : ENDS.filter((one) => end === one || setting.startsWith(`${one}.`)).map((one) => ({
            setting: setting.startsWith(`${one}.`) ? setting : `${one}.${setting}`,
            unit: unit as ChangeUnit,
          }));
  return turned.flatMap(({ setting: id, unit: counted }) => {
    const own = settings.find((s) => s.id === id || s.called?.includes(id) === true);
    const kind = SPRINGS.get(aspect(counted));
    // A tyre has its pressure too.
    return own?.end === undefined || kind === undefined || (own.kind !== 'spring' && own.kind !== 'ramp-up')
      ? []
      : [[own.end, kind] as const];
  });
}

const SPRINGS: ReadonlyMap<ReturnType<typeof aspect>, Kind> = new Map([
  ['pressure', 'air'],
  ['spacers', 'air'],
  ['rate', 'coil'],
  ['length', 'coil'],
]);

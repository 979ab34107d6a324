/** What was changed already, and what came of it: asked once, and one key where nothing was. */
import { ENDS } from '../../bike/sheet.ts';
import { dimensionOf, inUnit, siPer, unitNamed, type Unit } from '../../bike/units.ts';
import type { Tried } from '../../casework/case.ts';
import type { Choice, Prompter } from '../../console/prompter.ts';
import { feltOpenings, feltTopics } from '../../casework/tried/felt-at.ts';
import type { Opening } from '../../rulebase/compiled-phrases.ts';
import { askPaged } from './ask-paged.ts';
import { thingsAt, type Thing, type Triable } from './triable.ts';

/** More than a rider remembers apart. */
const MOST = 5;

/** One change as it was told, question by question. */
interface Told {
  readonly where: string;
  readonly given: readonly string[];
  /** two where it made one thing better and another worse */
  readonly tried: readonly Tried[];
}

/**
 * @param before what was told already: it is asked for more
 * @param since something was said to be changed since it last felt right: what that was
 * @returns undefined to go back
 */
export async function askTried(
  prompter: Prompter,
  bike: Triable,
  { before = [], since = false }: { readonly before?: readonly Tried[]; readonly since?: boolean } = {},
): Promise<Tried[] | undefined> {
  const noted: Told[] = [];
  while (noted.length < MOST) {
    const first = noted.length === 0;
    const told = before.length + noted.length;
    const asksWhat = since && first;
    const { value } = await prompter.ask({
      head: told === 0 ? '' : `Noted: ${told}`,
      message: asksWhat
        ? 'Where was something changed?'
        : told === 0
          ? 'Tried anything yet?'
          : 'Tried anything else?',
      choices: [
        { value: 'no', name: asksWhat ? "don't know, or told already" : told === 0 ? 'no, nothing' : 'no' },
        ...ENDS.map((end) => ({ value: end, name: asksWhat ? `at the ${end}` : `yes, at the ${end}` })),
        { value: 'bike', name: asksWhat ? 'bars or something else' : 'yes, bars or something else' },
      ],
      actions: [{ key: 'b', value: 'back', name: first ? 'back' : 'back into the last one' }],
    });
    if (value === 'no') break;
    if (value === 'back') {
      const last = noted.pop();
      if (last === undefined) return undefined;
      // Nothing that was told goes unless it is walked back over, question by question.
      const again = await askOne(prompter, last.where, bike, last.given);
      if (again === undefined) prompter.say('  Taken back.\n');
      else noted.push(again);
      continue;
    }
    const one = await askOne(prompter, value, bike);
    if (one !== undefined) noted.push(one);
  }
  return noted.flatMap(({ tried }) => tried);
}

/** The value of a question that nobody needs to be asked. */
const SKIPPED = '';

/**
 * One change: what, which way, how far, what it did, and whether it was put back; back goes one question back.
 *
 * @param before what was told of it: the last of that is asked again
 * @returns undefined when it is walked back over
 */
async function askOne(
  prompter: Prompter,
  where: string,
  bike: Triable,
  before: readonly string[] = [],
): Promise<Told | undefined> {
  const things = thingsAt(where, bike);
  const felt = feltOpenings(bike.rules);
  const given = before.slice(0, -1);
  while (given.length < 7) {
    const thing = things.find(({ stand }) => stand === given[0]);
    const value = await askNext(prompter, { things, thing, felt, given });
    if (value !== undefined) {
      given.push(value);
      continue;
    }
    while (given.length > 0 && given.at(-1) === SKIPPED) given.pop();
    if (given.pop() === undefined) return undefined;
  }
  const [stand, way, far, result, better, worse, putBack] = given as Answers;
  const { setting, unit, ways } = things.find((one) => one.stand === stand)!;
  const by = far === SKIPPED || far === UNKNOWN ? undefined : Number(far);
  const tried = {
    setting,
    direction: way === SKIPPED ? ways[0]!.value : way,
    ...(unit === undefined || by === undefined ? {} : { by, unit }),
    putBack: putBack as Tried['putBack'],
  };
  const at = (id: string): string[] =>
    feltTopics(
      bike.rules,
      felt.find((one) => one.id === id)!,
    );
  return {
    where,
    given,
    tried:
      result === TRADE
        ? [
            { ...tried, result: 'better', for: at(better) },
            { ...tried, result: 'worse', for: at(worse) },
          ]
        : [{ ...tried, result: result as Tried['result'] }],
  };
}

type Answers = [
  stand: string,
  way: string,
  far: string,
  result: string,
  better: string,
  worse: string,
  back: string,
];

interface Asking {
  readonly things: readonly Thing[];
  readonly thing: Thing | undefined;
  /** where a change can have been felt */
  readonly felt: readonly Opening[];
  /** what was answered so far */
  readonly given: readonly string[];
}

/** @returns undefined to go back */
async function askNext(
  prompter: Prompter,
  { things, thing, felt, given }: Asking,
): Promise<string | undefined> {
  const at = given.length;
  const choose = async (message: string, choices: readonly Choice[]): Promise<string | undefined> => {
    const { value } = await askPaged(prompter, {
      head: '',
      message,
      choices,
      actions: [{ key: 'b', value: 'back', name: 'back' }],
    });
    return value === 'back' ? undefined : value;
  };
  if (at === 0 || thing === undefined)
    return await choose(
      'What was changed?',
      things.map(({ stand: value, name }) => ({ value, name })),
    );
  const { unit, ways } = thing;
  if (at === 1) return ways.length === 1 ? SKIPPED : await choose('Which way?', ways);
  if (at === 2) {
    if (unit === undefined) return SKIPPED;
    const far = await askFar(prompter, unit);
    return far === 'back' ? undefined : far === undefined ? UNKNOWN : String(far);
  }
  if (at === 3) return await choose('What did it do?', WITH_TRADE);
  if (at === 6) return await choose('Was it put back?', PUT_BACK);
  if (given[3] !== TRADE) return SKIPPED;
  return await choose(
    at === 4 ? 'What got better?' : 'And what got worse?',
    // Nothing got both.
    felt.flatMap(({ id, say }) => (at === 5 && id === given[4] ? [] : [{ value: id, name: say }])),
  );
}

/** @returns how many, undefined where nobody knows; what is no number is asked again */
export async function askFar(prompter: Prompter, unit: string): Promise<number | 'back' | undefined> {
  for (;;) {
    const typed = (await prompter.text(`How many ${unit}? (Return: don't know; b: back)`)).trim();
    if (typed.toLowerCase() === 'b') return 'back';
    if (typed === '') return undefined;
    const by = farOf(typed, unit);
    if (by !== undefined) return by;
    prompter.say(`  Type one number above 0, in ${unit}, or Return if you don't know it.\n`);
  }
}

/**
 * `2`, `1,5`, `2 clicks`; `0.2 bar` where psi are asked for is taken as so many psi.
 * @returns undefined where that is no amount, or one of something else
 */
export function farOf(typed: string, unit: string): number | undefined {
  const [, number = '', name = ''] = /^(\d+(?:[.,]\d+)?)\s*([a-z]*)$/i.exec(typed.trim()) ?? [];
  const by = number === '' ? NaN : Number(number.replace(',', '.'));
  if (!Number.isFinite(by) || by <= 0) return undefined;
  const dimension = dimensionOf(unit);
  if (name === '') return by;
  if (dimension === undefined) return singular(name) === singular(unit) ? by : undefined;
  const own = unitNamed(name, dimension);
  return own === undefined ? undefined : inUnit(by * siPer(own), unit as Unit);
}

const singular = (name: string): string => name.toLowerCase().replace(/s$/, '');

/** Asked, and not known: unlike what was skipped it can be gone back to. */
const UNKNOWN = '?';

/** Better at one thing and worse at another: asked which. */
const TRADE = 'trade';

/** What a change did to one thing, or to all of them alike. */
export const RESULTS: readonly Choice[] = [
  { value: 'better', name: 'better' },
  { value: 'same', name: 'no difference' },
  { value: 'worse', name: 'worse' },
  { value: 'not-sure', name: 'not sure' },
];

const WITH_TRADE: readonly Choice[] = RESULTS.toSpliced(-1, 0, {
  value: TRADE,
  name: 'better at one thing, worse at another',
});

export const PUT_BACK: readonly Choice[] = [
  { value: 'yes', name: 'yes, it is as it was' },
  { value: 'no', name: 'no, it is still like that' },
  { value: 'unknown', name: "don't know" },
];

/** A number that was typed in the place of an answer: what it is held against, and read back before it counts. */
import type { PreparedBike } from '../../advice/prepared-bike.ts';
import {
  answerFor,
  bandTold,
  canRead,
  targetOf,
  type Band,
  type Gauge,
  type Target,
} from '../../bike/gauge/gauge.ts';
import { asWritten, readBand, readingsOf, readNumber, type Beside } from '../../bike/gauge/read-number.ts';
import { readSpringAt, type SpringAt } from '../../bike/gauge/spring-at.ts';
import { LIMITS } from '../../bike/form/limits.ts';
import type { End } from '../../bike/sheet.ts';
import { readQuantity } from '../../bike/units.ts';
import type { CaseAnswer } from '../../casework/case.ts';
import { sureOfNumber } from '../../casework/reading/sure-of-number.ts';
import type { Chosen, Prompter } from '../../console/prompter.ts';
import { SAID } from '../../console/question-lines.ts';
import { readBackText } from '../../report/gauge-text.ts';
import { paragraph } from '../../report/wrap.ts';
import type { Question } from '../../rulebase/compiled.ts';

/** What the rider told of himself on the way, kept for the interview. */
export interface ToldRider {
  /** with kit, kg */
  mass?: number;
}

export type Measure = Required<Pick<CaseAnswer, 'answer' | 'measured' | 'sure'>>;

/** What takes a number here; undefined where the question, or the spring of this bike, has none. */
export function gaugeHere({ gauge, end }: Question, { fact }: PreparedBike): Gauge | undefined {
  return gauge === undefined || !canRead(gauge.reads, fact(`${end}.spring`)) ? undefined : gauge;
}

/** How a number may be written here. */
export function numbersHere({ like = [] }: Gauge): string {
  return like.join(', ');
}

/**
 * What was chosen at a question that takes numbers: a digit that is the number of a line, and may be read off the gauge as well,
 * is one or the other only once that was asked.
 */
export async function lineOrReading(
  prompter: Prompter,
  chosen: Chosen,
  { answers }: Question,
  gauge: Gauge | undefined,
): Promise<Chosen> {
  const { value, text } = chosen;
  if (gauge === undefined || text === undefined || value === SAID) return chosen;
  const readings = readingsOf(text, gauge.reads);
  if (readings.length === 0) return chosen;
  const line = answers.find(({ id }) => value === `answer:${id}`)!.text;
  const { value: meant } = await prompter.ask({
    head: '',
    message: `Line ${text}, or ${readings.join(', or ')}?`,
    choices: [
      { value, name: `line ${text}: ${line}` },
      ...readings.map((reading) => ({ value: reading, name: `${reading}, read off the gauge` })),
    ],
    actions: [],
    // A second Return, pressed by habit, would take the line.
    deliberate: true,
  });
  return meant === value ? chosen : { ...chosen, value: SAID, text: meant };
}

/** @returns what the number comes to; undefined where it is asked again, and why was said */
export async function askNumber(
  prompter: Prompter,
  text: string,
  question: Question & { readonly gauge: Gauge; readonly end: End },
  bench: PreparedBike,
  rider: ToldRider,
): Promise<Measure | undefined> {
  const { gauge, end } = question;
  const { sheet } = bench;
  const beside: Beside = {
    end,
    whole:
      sheet === undefined ? undefined : end === 'front' ? sheet.ends.front.travel : sheet.ends.rear.stroke,
    pressure: sheet?.units.pressure,
    like: gauge.like,
  };
  const say = (line: string): void => prompter.say(`${paragraph(line, prompter.style.width - 1, '  ')}\n`);
  const read = readNumber(text, gauge.reads, beside);
  if (!read.ok) {
    say(read.why);
    return undefined;
  }
  const { unit, length } = read;
  const value = asWritten(read.value, unit);
  let known = await knownTarget();
  let band = known?.band;
  for (;;) {
    band ??= await askBand();
    if (band === undefined) return undefined;
    // What is usual for a weight is no target.
    const byWeight = known?.of === 'weight';
    const answer = answerFor(value, band, gauge);
    const measured: Measure['measured'] = {
      value,
      unit,
      band,
      ...(length === undefined ? {} : { length }),
    };
    const sure = sureOfNumber(value, known);
    const edge = sure === 'guess' ? '; so near the edge of what is usual it says little' : '';
    const words = question.answers.find(({ id }) => id === answer)!.text;
    const { value: chosen } = await prompter.ask({
      head: '',
      message: `${readBackText(measured, words, byWeight && answer === gauge.answers.near)}${edge}.`,
      choices: [
        { value: 'yes', name: 'yes, go on' },
        { value: 'figure', name: 'it should be another figure: type that' },
        { value: 'again', name: 'it reads something else: back to the question' },
      ],
      actions: [],
    });
    if (chosen === 'yes') {
      const at = answer === gauge.answers.near ? undefined : await askSpring();
      return { answer, measured: at === undefined ? measured : { ...measured, at }, sure };
    }
    if (chosen === 'again') return undefined;
    known = undefined;
    band = undefined;
  }

  /** What the spring held when its sag was read, where no sheet says it: a step is counted from there. */
  async function askSpring(): Promise<SpringAt | undefined> {
    const fact = bench.fact(`${end}.spring`);
    if (gauge.reads !== 'sag' || sheet !== undefined || fact === 'none') return undefined;
    const kind = fact === 'air' || fact === 'coil' ? fact : undefined;
    const like = bench.rules.questions.find((q) => q.end === end && q.gauge?.reads === 'spring')?.gauge?.like;
    const such = like === undefined ? '' : `, such as ${like.at(-1)}`;
    const what =
      kind === 'coil'
        ? `Number on the ${end} coil, in lb/in or N/mm`
        : `${kind === 'air' ? `Pressure in the ${end}` : `If the ${end} has air: its pressure`}${such}`;
    for (;;) {
      const told = (await prompter.text(`${what} (Return: not known):`)).trim();
      if (told === '') return undefined;
      const held = readSpringAt(told, kind, { ...beside, like });
      if (held.ok) return held.at;
      say(held.why);
    }
  }

  /** What is known to be right here, the rider's weight asked where that says it. */
  async function knownTarget(): Promise<Target | undefined> {
    const { near } = bench.rules.sheetCheck;
    const asksWeight = gauge.against.some(({ of }) => of === 'weight') && near['tyre-for'] !== undefined;
    const found = targetOf(gauge, end, sheet, near, sheet?.riderMass ?? rider.mass);
    if (found !== undefined || !asksWeight) return found;
    for (;;) {
      const told = (
        await prompter.text('Rider with kit: how heavy? Such as 80 kg (Return: not known):')
      ).trim();
      if (told === '') return undefined;
      const mass = readQuantity(told, 'mass', sheet?.units.mass ?? 'kg');
      if (mass.ok && mass.value >= LIMITS.riderMass[0] && mass.value <= LIMITS.riderMass[1]) {
        rider.mass = mass.value;
        return targetOf(gauge, end, sheet, near, mass.value);
      }
      say(mass.ok ? `${told} cannot be right.` : `${mass.why}.`);
    }
  }

  async function askBand(): Promise<Band | undefined> {
    for (;;) {
      const told = (
        await prompter.text(`What should it be? Such as ${gauge.like?.[0] ?? 'before'} (Return: back):`)
      ).trim();
      if (told === '') return undefined;
      const figure = readBand(told, gauge.reads, { ...beside, pressure: unit === '%' ? undefined : unit });
      if (figure.ok) return bandTold(figure.band, gauge);
      say(figure.why);
    }
  }
}

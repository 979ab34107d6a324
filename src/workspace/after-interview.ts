/** What to do with a bike after its newest interview; reads nothing. */
import { ownSize } from '../advice/step/own-size.ts';
import { capital, withoutStop, withStop } from '../form/text.ts';
import { readDeed } from '../bike/deed.ts';
import type { BikeSheet } from '../bike/sheet.ts';
import { alarmsOf, alarmTexts } from '../report/verdict/alarms.ts';
import { changeWords } from '../report/bike/change-words.ts';
import type { NextThing } from '../report/bike/next-text.ts';
import { interviewName, withStep } from '../report/phrases.ts';
import { changeOf, type ResultAdjustment, firstOf, type Result } from '../report/result/result.ts';
import { offLines, smallerStep, tellingOf } from '../report/verdict/verdict-lines.ts';
import type { Words } from '../report/verdict/voice.ts';
import type { CompiledRules } from '../rulebase/compiled.ts';
import { quoted } from '../host/quoted.ts';
import { lettersWords, setLine as countLine, toWriteDown } from './bikes/set-line.ts';
import type { KeptInterview } from './cases/kept-interviews.ts';

/** The bike, and whom is spoken to. */
export interface About {
  /** the bike sheet's file as the user wrote it */
  readonly file: string;
  readonly sheet: BikeSheet;
  /** what an interview says, in the words of whoever is spoken to */
  readonly words: Pick<Words, 'audience'> & { readonly rules: CompiledRules };
}

/** What an interview came to; what must be checked before riding, and what to mind until then, stands in front of all of it. */
export function afterInterview(interview: KeptInterview, open: About): NextThing {
  const { result } = interview;
  const { rules, audience } = open.words;
  const less = interview.finished ? smallerStep(result) : undefined;
  // The smaller step is set as any change is, so the same is checked before it.
  const told: Result = less === undefined ? result : { ...result, verdict: 'change' };
  const alarms = alarmsOf(told, rules, audience);
  const thing = less === undefined ? asAdvised(interview, open, alarms) : smallerThing(less, interview, open);
  const warned = result.cautions.flatMap(({ likely, text }) => (likely === true ? [text] : []));
  return { ...thing, do: [...alarmTexts(alarms), ...warned, thing.do].join('\n') };
}

function smallerThing(less: string, { id, path }: KeptInterview, { file, sheet }: About): NextThing {
  return {
    kind: 'plan',
    do: `Nothing is advised yet (${interviewName(id)}). A smaller step of what was tried has not been tested: ${changeWords(readDeed(less, sheet.settings), sheet)}. Plan its trial:`,
    command: `earshot trial plan --bike ${quoted(file)} --case ${quoted(path)} --change ${quoted(less)}`,
  };
}

/** @param alarms what is asked before this, by question */
function asAdvised(
  { id, path, answers, result, finished }: KeptInterview,
  { file, sheet, words }: About,
  alarms: ReadonlyMap<string, string>,
): NextThing {
  const resume = `earshot interview --resume ${quoted(path)}`;
  const first = firstOf(result);
  const count = `${answers} ${answers === 1 ? 'answer' : 'answers'}`;
  if (!finished)
    return { kind: 'resume', do: `Carry on with ${interviewName(id)} (${count} so far).`, command: resume };
  if (first === undefined || result.verdict !== 'change') {
    const telling = tellingOf(result, words);
    if (telling === undefined || result.assignments.length === 0)
      return leftAlone(id, file, offLines(result, words));
    const asked = alarms.has(telling.question) ? '' : checkLine(telling, words.rules);
    return { kind: 'find-out', do: `${asked}Then:`, command: resume };
  }
  const own = words.audience === 'rider' ? withoutStop(first.plain) : first.do;
  const back = words.audience === 'rider' ? first.before?.plain : first.before?.do;
  const toDo = back === undefined ? own : `${withStop(back)}\nThen: ${own}`;
  const numbers = toWriteDown(first);
  if (numbers.length > 0)
    return {
      kind: 'count',
      do: `${toDo} (${interviewName(id)}). ${first.writeDown.length > 0 ? 'Then' : 'First find out how it is set, so that you can go back. Then'}, ${lettersWords(numbers)}:`,
      command: countLine(numbers, file),
    };
  // What is no single step of an adjuster is done, not tested back and forth.
  if (changeOf(first) === undefined)
    return {
      kind: 'repair',
      do: `${toDo} (${interviewName(id)}). When it is done:`,
      command: `earshot log note ${quoted(first.do)} --case ${quoted(id)} --bike ${quoted(file)}`,
    };
  return {
    kind: 'plan',
    do: `${toDo}${withStep(first)} (${interviewName(id)}).${sizeWords(first, sheet, words.rules)} Plan its trial:`,
    command: `earshot trial plan --bike ${quoted(file)} --case ${quoted(path)}`,
  };
}

/** Of a knob that goes by another step than it usually does, and maybe than was told before it was counted: why. */
function sizeWords(first: ResultAdjustment, sheet: BikeSheet, rules: CompiledRules): string {
  const usual = rules.adjustments.find(({ id }) => id === first.id)?.change;
  const why = ownSize(usual, changeOf(first)!, sheet, { ...rules.numbers.advice, reasons: rules.reasons });
  return why === undefined ? '' : ` ${capital(why)}.`;
}

/** What is looked at on the stand, or found out on a ride, or, where the ride hangs on it, before one. */
function checkLine(
  { question, text }: NonNullable<ReturnType<typeof tellingOf>>,
  { questions }: Words['rules'],
): string {
  const asked = questions.find((q) => q.id === question);
  if (asked?.safety === true) return `To check before riding: ${text}\n`;
  if (asked?.how === 'stand') return `To check: ${text}\n`;
  // What is only remembered needs no ride.
  return `To find out${asked?.how === 'ride' ? ' on the next ride' : ''}: ${text}\n`;
}

/** Nothing to do is where the loop ends; it begins again when something feels wrong. */
function leftAlone(id: string, file: string, off: readonly string[]): NextThing {
  const found = off.length === 0 ? 'nothing to change' : 'nothing by feel that speaks for a change';
  return {
    kind: 'rest',
    do: [
      `Leave the bike as it is: ${interviewName(id)} found ${found}.`,
      ...off,
      'When something feels wrong:',
    ].join(' '),
    command: `earshot interview --bike ${quoted(file)}`,
  };
}

/** Earlier trials on this bike, in lines: what they ruled out, and how the bike stands against the maker's sheet. */
import type { BikeSheet } from '../../bike/sheet.ts';
import type { CaseResult } from '../../casework/case.ts';
import type { Lesson } from '../../casework/belief-shifts.ts';
import { changeWords, outcomeWord } from './change-words.ts';
import { capital } from '../../form/text.ts';
import { ratedWords } from './ridden-text.ts';
import { fit, type Style } from '../style.ts';
import { paragraph } from '../wrap.ts';

/** At or below this a cause counts as ruled out for now. */
const RULED_OUT = 0.05;
/** Causes named a trial. */
const MOST = 2;

export const GOOD_END =
  'Every knob is at its recommended setting. That is a good result: the bike was right, and now you know.';

/** One line a trial. @param sheet names its settings as this bike has them @param rules name what has no number */
export function lessonLines(
  lessons: readonly Lesson[],
  sheet?: BikeSheet,
  rules?: Parameters<typeof changeWords>[2],
): string[] {
  return lessons.map(({ result, placed, moved }) => {
    const tried = `${capital(changeWords(result.change, sheet, rules))}: ${outcomeWords(result)}`;
    if (!placed) return `${tried}. No rule covers that change, so it was not counted.`;
    if (moved.length === 0) return `${tried}. It makes no cause much likelier or less likely.`;
    const says = moved.slice(0, MOST).map(({ name, before, after }) => {
      if (after < before && after <= RULED_OUT) return `rules out ${name}`;
      return `${name} ${after < before ? 'less likely' : 'likelier'}`;
    });
    const said = says.join('; ');
    return `${tried}. ${capital(said)}.`;
  });
}

function outcomeWords(result: CaseResult): string {
  const { outcome, kept, points } = result;
  if (points !== undefined) return `${ratedWords(result)}, ${kept ? 'kept' : 'not kept'}`;
  if (outcome !== 'better') return `${outcomeWord(outcome)}, ${kept ? 'left on the bike' : 'not kept'}`;
  return kept ? 'better, kept' : 'better, but no longer on the bike';
}

/** What the log says of the rider. @param shift of his base rates, log odds, not 0 */
export function readinessLine(shift: number): string {
  return `The answers so far tell of problems ${shift > 0 ? 'more' : 'less'} readily than most riders do. That is allowed for.`;
}

/** The section that stands below a diagnosis. */
export function historyText(lines: readonly string[], style: Style): string {
  const text = [
    '',
    style.strong('Earlier trials on this bike (counted above; --no-log leaves them out)'),
    ...lines.map((line) => paragraph(line, style.width, '  - ', '    ')),
    '',
  ].join('\n');
  return fit(text, style);
}

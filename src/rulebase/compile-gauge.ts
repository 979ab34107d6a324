/** What a question makes of a number that is typed in the place of an answer, with its names resolved. */
import type { SheetTrade } from '../bike/check/sheet-check.ts';
import type { Against, Band, Gauge, Reads, Within } from '../bike/gauge/gauge.ts';
import { readQuantity, readShare } from '../bike/units.ts';
import { didYouMean } from '../form/suggest.ts';
import { defined } from '../form/plain-data.ts';
import type { Entry } from './entries.ts';
import type { PackFile } from './schema/pack.ts';
import type { QuestionSource } from './schema/question.ts';

/** What the pack says of figures and of what is near enough. */
export interface GaugeTrade {
  /** figures with two numbers, by name */
  readonly bands: ReadonlyMap<string, Band>;
  readonly near: SheetTrade['near'];
  /** how a number may be written */
  readonly like: NonNullable<PackFile['number-examples']>;
}

const OWN_FIGURES = ['sheet', 'weight'] as const;

/** Undefined where the question takes no number. */
export function linkGauge(e: Entry<QuestionSource>, { bands, near, like }: GaugeTrade): Gauge | undefined {
  const { gauge, answers: all } = e.data;
  if (gauge === undefined) return undefined;
  const wrong = (path: string[], message: string, remedy: string): void =>
    e.wrong(['gauge', ...path], 'unknown-id', message, remedy);
  if (e.end === undefined)
    wrong([], `${e.id} reads a number of an end, and has none.`, 'Add for: [front, rear].');
  const ids = Object.keys(all);
  for (const [side, answer] of Object.entries(gauge.answers))
    if (!ids.includes(answer))
      wrong(
        ['answers', side],
        `${answer} is not an answer of ${e.id}.`,
        didYouMean(answer, ids) || `Answers: ${ids.join(', ')}.`,
      );
  const against = Object.entries(gauge.against).flatMap(([template, text]): Against[] => {
    const name = e.fill(template);
    const within = text === 'near' ? nearOf(gauge.reads, near) : withinOf(text);
    if (within === undefined) {
      wrong(
        ['against', template],
        `${text} is no distance.`,
        'Write near, a pressure such as 2 psi, or 25 %.',
      );
      return [];
    }
    const own = OWN_FIGURES.find((one) => one === name);
    if (own !== undefined) return [{ of: own, within }];
    const figure = bands.get(name);
    if (figure !== undefined) return [{ of: 'usual', figure, within }];
    const names = [...OWN_FIGURES, ...bands.keys()];
    wrong(
      ['against', template],
      `There is no figure ${name} with its numbers.`,
      didYouMean(name, names) || `Known: ${names.join(', ')}.`,
    );
    return [];
  });
  return defined<Gauge>({
    reads: gauge.reads,
    answers: gauge.answers,
    against,
    like: like[gauge.reads]?.[e.end ?? 'front'],
    called: gauge.called,
  });
}

function nearOf(reads: Reads, near: SheetTrade['near']): Within {
  if (reads === 'sag') return { amount: near.sag / 100 };
  return { part: (reads === 'tyre' ? near.tyre : near.pressure) / 100 };
}

function withinOf(text: string): Within | undefined {
  const part = readShare(text);
  if (part.ok) return { part: part.value };
  const amount = readQuantity(text, 'pressure', 'psi');
  return amount.ok ? { amount: amount.value } : undefined;
}

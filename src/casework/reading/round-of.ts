/** What one round of a case means: its answers, what was tried before and ridden after, each checked against the rules. */
import { parseChange } from '../../bike/change.ts';
import { readDeed, type Deed } from '../../bike/deed.ts';
import { isMap } from '../../form/plain-data.ts';
import { measuredOf, type KnownBike } from './measured-of.ts';
import { severalOf } from '../several.ts';
import type { Sound } from '../../form/checked.ts';
import type { PathProblem } from '../../form/problem.ts';
import { printable } from '../../form/text.ts';
import { didYouMean } from '../../form/suggest.ts';
import { CANNOT_TELL, EITHER, NOT_NOW, type Question } from '../../rulebase/compiled.ts';
import type { CaseAnswer, CaseResult, CaseVocabulary, Round, Tried, Wrong } from '../case.ts';
import type { RoundFile } from './case-schema.ts';

type Path = PathProblem['path'];
type Entry<K extends keyof RoundFile> = NonNullable<NonNullable<Sound<RoundFile>[K]>>;

export function roundOf(
  { changed, tried, answers, results }: Sound<RoundFile>,
  at: Path,
  vocabulary: CaseVocabulary,
  wrong: Wrong,
  bike: KnownBike = {},
): Round {
  const before = tried?.flatMap((one, i) => triedOf(one, [...at, 'tried', i], vocabulary, wrong));
  return {
    ...(changed === true ? { changed } : {}),
    ...(before === undefined ? {} : { tried: before }),
    answers:
      answers === undefined || answers === null
        ? []
        : answersOf(answers, [...at, 'answers'], vocabulary, wrong, bike),
    results: results?.flatMap((one, i) => resultOf(one, [...at, 'results', i], vocabulary, wrong)) ?? [],
  };
}

function answersOf(
  file: Entry<'answers'>,
  at: Path,
  vocabulary: CaseVocabulary,
  wrong: Wrong,
  bike: KnownBike,
): CaseAnswer[] {
  const out: CaseAnswer[] = [];
  for (const [id, given] of Object.entries(file)) {
    const question = vocabulary.questions.get(id);
    if (question === undefined) {
      wrong(at, `There is no question ${printable(id)}.`, () => questionLike(id, vocabulary), id);
      continue;
    }
    if (isMap(given) && 'measured' in given) {
      const { measured, target, at: held, sure } = given as NumberAnswer;
      if (measured === undefined) continue;
      const told = measuredOf(
        question,
        {
          measured: String(measured),
          target: target == null ? undefined : String(target),
          at: held == null ? undefined : String(held),
        },
        vocabulary,
        bike,
      );
      if ('message' in told) wrong([...at, id, told.key], told.message, told.remedy);
      else out.push({ question: id, answer: told.answer, sure: sure ?? told.sure, measured: told.measured });
      continue;
    }
    const { answer: said, sure } = isMap(given)
      ? (given as SureAnswer)
      : { answer: given as SureAnswer['answer'] };
    // What was no word has been told of already.
    if (said === undefined || (typeof said === 'object' && said.includes(undefined))) continue;
    const ids = (): string[] => [...question.answers.map((a) => a.id), CANNOT_TELL, NOT_NOW];
    const several = typeof said === 'string' ? [said] : severalOf(said as readonly string[], question);
    if ('message' in several) {
      wrong([...at, id], several.message, several.remedy);
      continue;
    }
    const strange = several.find((answer) => !isAnswer(question, answer));
    if (strange !== undefined) {
      wrong([...at, id], `${id} has no answer ${printable(strange)}.`, () =>
        question.gauge !== undefined && /^\d/.test(strange.trim())
          ? `A number is written as ${id}: {measured: ${strange.trim()}}.`
          : didYouMean(strange, ids()) || `Answers: ${ids().join(', ')}.`,
      );
      continue;
    }
    const [answer, ...also] = several;
    out.push({ question: id, answer: answer!, ...(also.length === 0 ? {} : { also }), sure: sure ?? 'sure' });
  }
  return out;
}

type SureAnswer = Extract<NonNullable<Entry<'answers'>[string]>, { readonly answer?: unknown }>;
type NumberAnswer = Extract<NonNullable<Entry<'answers'>[string]>, { readonly measured?: unknown }>;

function isAnswer({ answers }: Question, id: string): boolean {
  return id === CANNOT_TELL || id === NOT_NOW || answers.some((answer) => answer.id === id);
}

function questionLike(id: string, { questions, retired }: CaseVocabulary): string {
  if (Object.hasOwn(retired, id)) return `It was retired; use ${retired[id]!}.`;
  const [bare] = id.split('@') as [string];
  if (bare !== id && questions.has(bare)) return `It has no front or rear: write ${bare}.`;
  const sided = ['front', 'rear'].map((end) => `${id}@${end}`).filter((one) => questions.has(one));
  if (sided.length === 0) return didYouMean(id, questions.keys()) || 'See earshot rules show for the ids.';
  const either = questions.has(`${id}@${EITHER}`) ? [`${id}@${EITHER} where that is not known`] : [];
  return `Say which end: ${[...sided, ...either].join(' or ')}.`;
}

function resultOf(
  file: NonNullable<Entry<'results'>>[number],
  at: Path,
  vocabulary: CaseVocabulary,
  wrong: Wrong,
): CaseResult[] {
  const { adjustments, adjusters } = vocabulary;
  const { change, outcome, kept, points, error, trial, date, 'changed-after': changedAfter } = file ?? {};
  const fault =
    change === undefined || adjustments.has(change) ? undefined : parseChange(change, adjusters).problems[0];
  if (fault !== undefined) wrong([...at, 'change'], fault.message, fault.remedy);
  const measured = typeof points === 'number' && typeof error === 'number';
  if (!measured && (typeof points === 'number' || typeof error === 'number'))
    wrong(
      at,
      `It gives ${typeof points === 'number' ? 'points without error' : 'error without points'}.`,
      'Give points and error as a judged trial does, or leave both out.',
    );
  if (change === undefined || outcome === undefined) return [];
  return [
    {
      change: deedOf(change, vocabulary),
      outcome,
      kept: kept ?? outcome === 'better',
      ...(measured ? { points, error } : {}),
      ...(changedAfter === true ? { changedAfter } : {}),
      ...(trial === undefined || trial === null ? {} : { trial: String(trial) }),
      ...(date === undefined || date === null ? {} : { date: String(date) }),
    },
  ];
}

/** What a case says of what was done: an adjustment's id, or changes. */
function deedOf(text: string, { adjustments, adjusters }: CaseVocabulary): Deed {
  return adjustments.has(text) ? { name: text } : readDeed(text, adjusters);
}

function triedOf(
  file: NonNullable<Entry<'tried'>>[number],
  at: Path,
  vocabulary: CaseVocabulary,
  wrong: Wrong,
): Tried[] {
  if (file === undefined) return [];
  const { change, setting, end, unit, direction, by, result, 'put-back': back } = file;
  const about = [file.for ?? []].flat().filter((id) => id !== undefined);
  const here = <K extends keyof Tried>(key: K, value: Tried[K] | null | undefined): Partial<Tried> =>
    value === undefined || value === null ? {} : { [key]: value };
  if ((change ?? setting ?? undefined) === undefined)
    wrong(at, 'It does not say what was tried.', 'Give setting and direction, or change.');
  if (result === undefined) return [];
  return [
    {
      ...here('change', change === undefined || change === null ? change : deedOf(change, vocabulary)),
      ...here('setting', setting),
      ...here('end', end),
      ...here('unit', unit),
      ...here('direction', direction as Tried['direction']),
      ...here('by', by),
      result,
      ...(about.length === 0 ? {} : { for: about }),
      putBack: back === true ? 'yes' : back === false ? 'no' : (back ?? 'unknown'),
    },
  ];
}

/**
 * What a case in its file form means under these rules: every question, answer, change and topic in it known. Data that has
 * the form is taken as it is; of data that has not, what is sound is, so that all that is wrong is told at once.
 */
import { saidOf } from '../../bike/form/said.ts';
import type { BikeSheet } from '../../bike/sheet.ts';
import type { Sound } from '../../form/checked.ts';
import type { PathProblem } from '../../form/problem.ts';
import { printable } from '../../form/text.ts';
import { didYouMean } from '../../form/suggest.ts';
import type { Case, CaseVocabulary, InterviewNotes, ReadCase, Wrong } from '../case.ts';
import type { CaseFile } from './case-schema.ts';
import { roundOf } from './round-of.ts';

/** Guessing what was meant takes longest. */
const MOST_GUESSED = 30;

/**
 * @param fallbackId the id of a record that gives none, such as its file and line
 * @param sheet of the bike that it is about, where there is one
 */
export function caseOf(
  file: Sound<CaseFile>,
  vocabulary: CaseVocabulary,
  fallbackId: string,
  sheet?: BikeSheet,
): ReadCase {
  const problems: PathProblem[] = [];
  const wrong: Wrong = (path, message, given, key) => {
    const remedy = typeof given === 'string' ? given : problems.length < MOST_GUESSED ? given() : '';
    problems.push({ path, severity: 'error', message, remedy, ...(key === undefined ? {} : { key }) });
  };
  const bike = file.bike ?? undefined;
  const has = hasOf(file.has ?? undefined, bike !== undefined, file.interview != null, vocabulary, wrong);
  const interview = notesOf(file.interview ?? undefined, vocabulary, wrong);
  const known = { sheet, said: has?.bike };
  const round = roundOf(file, [], vocabulary, wrong, known);
  const earlier =
    file.earlier?.map((one, i) => roundOf(one ?? {}, ['earlier', i], vocabulary, wrong, known)) ?? [];
  if (problems.length > 0) return { problems };
  return {
    value: {
      id: String(file.id ?? fallbackId),
      ...(bike === undefined ? {} : { bike }),
      ...(has === undefined ? {} : { has }),
      ...(typeof file.said === 'string' ? { said: file.said } : {}),
      ...round,
      earlier,
      ...(interview === undefined ? {} : { interview }),
      ...(file.note === undefined ? {} : { note: file.note }),
    },
    problems,
  };
}

/** What of a thing that was tried says which it was. */
const TOLD = ['setting', 'end', 'direction'] as const;

/** What was tried in words that no rule knows. */
export function unplaced(file: Sound<CaseFile>, vocabulary: CaseVocabulary): PathProblem[] {
  const rounds = [
    { round: file, at: [] },
    ...(file.earlier?.map((round, i) => ({ round: round ?? {}, at: ['earlier', i] })) ?? []),
  ];
  return rounds.flatMap(({ round, at }) =>
    (round.tried ?? []).flatMap((one, i): PathProblem[] => {
      // A key that is no word was told of already; what it would have said is not missed besides.
      if (one === undefined || TOLD.some((key) => key in one && one[key] === undefined)) return [];
      // The rest of it is read all the same where only its result is wrong.
      const whole = { ...one, result: one.result ?? 'not-sure' } as const;
      const [tried] = roundOf({ tried: [whole] }, [], vocabulary, () => undefined).tried ?? [];
      const why = tried === undefined ? undefined : vocabulary.misread(tried);
      return why === undefined
        ? []
        : [{ path: [...at, 'tried', i], severity: 'error', message: why, remedy: '' }];
    }),
  );
}

/**
 * What a rider said of a bike without a sheet; where there is a sheet, the sheet says it.
 * @param kept whether an interview wrote the file: some of them kept what was told before the sheet was made
 */
function hasOf(
  file: NonNullable<Sound<CaseFile>['has']> | undefined,
  withSheet: boolean,
  kept: boolean,
  { adjusters }: CaseVocabulary,
  wrong: Wrong,
): Case['has'] | undefined {
  if (file === undefined || (withSheet && kept)) return undefined;
  if (withSheet)
    wrong(['has'], 'has: and bike: are both there.', 'Remove has:. The bike sheet already says it.');
  const { bike, problems } = saidOf(file, adjusters);
  for (const { path, message, remedy } of problems) wrong(path, message, remedy);
  return bike === undefined ? undefined : { raw: file, bike };
}

function notesOf(
  file: NonNullable<Sound<CaseFile>['interview']> | undefined,
  { topics }: CaseVocabulary,
  wrong: Wrong,
): InterviewNotes | undefined {
  if (file === undefined) return undefined;
  const about = (file.about ?? []).filter((topic) => topic !== undefined);
  about.forEach((topic, i) => {
    if (!topics.has(topic))
      wrong(
        ['interview', 'about', i],
        `There is no topic ${printable(topic)}.`,
        () => didYouMean(topic, topics) || 'Leave it out.',
      );
  });
  return {
    about,
    ...notMeantOf(file['not-meant']),
    ...(file.hearing === true ? { hearing: true as const } : {}),
    keepAsking: file['keep-asking'] === true,
    ...(file.finished === true ? { finished: true } : {}),
    ...(file.for === 'rider' ? { for: file.for } : {}),
    ...(file.begun == null ? {} : { begun: file.begun }),
  };
}

/** A question that is gone was declined in vain: nothing hangs on it. */
function notMeantOf(
  file: Readonly<Record<string, readonly (string | undefined)[] | undefined>> | null | undefined,
): Pick<InterviewNotes, 'notMeant'> {
  if (file == null) return {};
  const given = Object.entries(file).map(
    ([question, answers = []]) => [question, answers.filter((answer) => answer !== undefined)] as const,
  );
  return given.length === 0 ? {} : { notMeant: Object.fromEntries(given) };
}

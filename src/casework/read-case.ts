/** Reads a case strictly: every problem at once, each with its place and remedy. */
import type { PathProblem } from '../form/problem.ts';
import { readSaid } from '../bike/form/said.ts';
import { didYouMean } from '../form/suggest.ts';
import {
  CASE_FORMAT,
  type Case,
  type CaseVocabulary,
  type InterviewNotes,
  type ReadCase,
  type Round,
  type Wrong,
} from './case.ts';
import { tooMuch } from './too-much.ts';
import { isMap } from '../form/is-map.ts';
import { kindOf, shorten, show } from './value-label.ts';
import { readAnswers } from './read-answers.ts';
import { readResults } from './read-results.ts';
import { readTried } from './read-tried.ts';

const KEYS = [
  'case',
  'id',
  'bike',
  'has',
  'said',
  'tried',
  'answers',
  'results',
  'earlier',
  'interview',
  'note',
] as const;

const ROUND_KEYS: readonly string[] = ['tried', 'answers', 'results'];

/** More problems of one case than this are counted, not told: a list of thousands is a wrong file, not a slip. */
const MOST_TOLD = 200;
/** Guessing what was meant takes longest. */
const MOST_GUESSED = 30;

function told(problems: readonly PathProblem[]): PathProblem[] {
  if (problems.length <= MOST_TOLD) return [...problems];
  return [
    ...problems.slice(0, MOST_TOLD),
    {
      path: [],
      severity: 'error',
      message: `${problems.length - MOST_TOLD} more problems of this case are not listed.`,
      remedy: 'Fix these first, or check that it is the right file.',
    },
  ];
}

/** @param fallbackId the id of a record that gives none, such as its file and line */
export function readCase(raw: unknown, vocabulary: CaseVocabulary, fallbackId: string): ReadCase {
  const problems: PathProblem[] = [];
  const wrong: Wrong = (path, message, given, key) => {
    const remedy = typeof given === 'string' ? given : problems.length < MOST_GUESSED ? given() : '';
    problems.push({ path, severity: 'error', message, remedy, ...(key === undefined ? {} : { key }) });
  };
  if (!isMap(raw)) {
    wrong(
      [],
      `A case must be a map, found ${kindOf(raw)}.`,
      'Write case: 1, id: and answers: as in the examples.',
    );
    return { problems };
  }
  if (typeof raw['bike'] === 'number' && raw['case'] === undefined && raw['answers'] === undefined) {
    wrong(
      [],
      'This is a bike sheet, not saved answers.',
      'Name it as the bike: earshot interview --bike FILE.',
    );
    return { problems };
  }
  const excess = tooMuch(raw);
  if (excess.length > 0) return { problems: excess };
  for (const key of Object.keys(raw)) {
    if (!(KEYS as readonly string[]).includes(key))
      wrong(
        [],
        `A case has no key ${shorten(key)}.`,
        didYouMean(key, KEYS) || `Keys: ${KEYS.join(', ')}.`,
        key,
      );
  }
  checkFormat(raw['case'], wrong);
  const id = raw['id'] ?? fallbackId;
  if (typeof id !== 'string' && typeof id !== 'number')
    wrong(['id'], `id must be a text, found ${kindOf(id)}.`, 'Write id: with a short name.');
  const bike = raw['bike'] ?? undefined;
  if (bike !== undefined && typeof bike !== 'string' && !isMap(bike))
    wrong(
      ['bike'],
      `bike must be a file name or a bike sheet, found ${kindOf(bike)}.`,
      'Write bike: park-bike.yaml.',
    );
  const has = readHas(raw['has'] ?? undefined, bike !== undefined, vocabulary, wrong);
  const said = raw['said'] ?? undefined;
  if (said !== undefined && typeof said !== 'string')
    wrong(['said'], `said must be a text, found ${kindOf(said)}.`, 'Put the words between quotes.');
  const interview = readNotes(raw['interview'], vocabulary, wrong);
  const round = readRound(raw, [], vocabulary, wrong);
  const earlier = readEarlier(raw['earlier'], vocabulary, wrong);
  if (problems.length > 0) return { problems: told(problems) };
  return {
    value: {
      id: String(id),
      ...(bike === undefined ? {} : { bike: bike as NonNullable<Case['bike']> }),
      ...(has === undefined ? {} : { has }),
      ...(said === undefined ? {} : { said: said as string }),
      ...round,
      earlier,
      ...(interview === undefined ? {} : { interview }),
      ...(raw['note'] === undefined ? {} : { note: raw['note'] }),
    },
    problems,
  };
}

/** What a rider said of a bike without a sheet; where there is a sheet, the sheet says it. */
function readHas(
  raw: unknown,
  withSheet: boolean,
  { adjusters }: CaseVocabulary,
  wrong: Wrong,
): Case['has'] | undefined {
  if (raw === undefined) return undefined;
  if (withSheet)
    wrong(['has'], 'has: and bike: stand side by side.', 'Leave has: out: the bike sheet says it.');
  const { bike, problems } = readSaid(raw, adjusters);
  for (const { path, message, remedy } of problems) wrong(path, message, remedy);
  return bike === undefined ? undefined : { raw: raw as Readonly<Record<string, unknown>>, bike };
}

function checkFormat(format: unknown, wrong: Wrong): void {
  if (format === CASE_FORMAT) return;
  if (typeof format === 'number' && format > CASE_FORMAT) {
    wrong(
      ['case'],
      `This case has format ${format}; this program reads format ${CASE_FORMAT}.`,
      'Update earshot, or save the case again with this version.',
    );
  } else if (format === undefined)
    wrong(
      [],
      'The key case is missing.',
      `Write case: ${CASE_FORMAT} (the format's number) on the first line.`,
    );
  else
    wrong(
      ['case'],
      `case must be the format number ${CASE_FORMAT}, found ${show(format)}.`,
      `Write case: ${CASE_FORMAT}.`,
    );
}

function readRound(
  raw: Readonly<Record<string, unknown>>,
  at: readonly (string | number)[],
  vocabulary: CaseVocabulary,
  wrong: Wrong,
): Round {
  const tried = readTried(raw['tried'], [...at, 'tried'], wrong);
  return {
    ...(tried.length === 0 ? {} : { tried }),
    answers: readAnswers(raw['answers'], [...at, 'answers'], vocabulary, wrong),
    results: readResults(raw['results'], [...at, 'results'], vocabulary, wrong),
  };
}

function readEarlier(raw: unknown, vocabulary: CaseVocabulary, wrong: Wrong): Round[] {
  if (raw === undefined || raw === null) return [];
  if (!Array.isArray(raw)) {
    wrong(
      ['earlier'],
      `earlier must be a list of rounds, found ${kindOf(raw)}.`,
      'Write each round as - answers: ... results: ...',
    );
    return [];
  }
  return raw.map((round: unknown, i) => {
    if (isMap(round)) {
      for (const key of Object.keys(round))
        if (!ROUND_KEYS.includes(key))
          wrong(
            ['earlier', i],
            `A round has no key ${shorten(key)}.`,
            () => didYouMean(key, ROUND_KEYS) || `Keys: ${ROUND_KEYS.join(', ')}.`,
            key,
          );
      return readRound(round, ['earlier', i], vocabulary, wrong);
    }
    wrong(
      ['earlier', i],
      `A round must be a map, found ${kindOf(round)}.`,
      'Write - answers: ... results: ...',
    );
    return { answers: [], results: [] };
  });
}

const NOTE_KEYS: readonly string[] = ['about', 'keep-asking', 'finished', 'for'];

function readNotes(raw: unknown, { topics }: CaseVocabulary, wrong: Wrong): InterviewNotes | undefined {
  if (raw === undefined || raw === null) return undefined;
  const remedy = 'Leave it out, or write {about: [topic], keep-asking: true}.';
  if (!isMap(raw)) {
    wrong(['interview'], `interview must be a map, found ${kindOf(raw)}.`, remedy);
    return undefined;
  }
  for (const key of Object.keys(raw)) {
    if (!NOTE_KEYS.includes(key))
      wrong(['interview'], `interview has no key ${shorten(key)}.`, `Keys: ${NOTE_KEYS.join(', ')}.`, key);
  }
  const about: unknown = raw['about'] ?? [];
  const flags = { 'keep-asking': raw['keep-asking'] ?? false, finished: raw['finished'] ?? false };
  if (!Array.isArray(about))
    wrong(['interview', 'about'], `about must be a list of topics, found ${kindOf(about)}.`, remedy);
  for (const [key, flag] of Object.entries(flags))
    if (typeof flag !== 'boolean')
      wrong(['interview', key], `${key} must be true or false, found ${show(flag)}.`, remedy);
  const whom: unknown = raw['for'] ?? 'mechanic';
  if (whom !== 'rider' && whom !== 'mechanic')
    wrong(['interview', 'for'], `for must be rider or mechanic, found ${show(whom)}.`, remedy);
  const list: readonly unknown[] = Array.isArray(about) ? about : [];
  list.forEach((topic, i) => {
    if (typeof topic !== 'string' || !topics.has(topic))
      wrong(
        ['interview', 'about', i],
        `There is no topic ${show(topic)}.`,
        () => didYouMean(String(topic), topics) || 'Leave it out.',
      );
  });
  return {
    about: list as string[],
    keepAsking: flags['keep-asking'] === true,
    ...(flags.finished === true ? { finished: true } : {}),
    ...(whom === 'rider' ? { for: whom } : {}),
  };
}

/** One interview's answers, as saved in a file or fed in by a script; read strictly, every problem at once. */
import type { CompiledRules, Question } from '../rulebase/compiled.ts';
import { parseChange } from '../bike/change.ts';
import { didYouMean } from '../rulebase/suggest.ts';

export const CASE_FORMAT = 1;

export type Sure = 'sure' | 'fairly' | 'guess';

/** An answer by id; `cannot-tell` is remembered but counts for nothing. */
export interface CaseAnswer {
  readonly question: string;
  readonly answer: string;
  readonly sure: Sure;
}

export interface CaseResult {
  /** change notation, several separated by commas, or an adjustment's id */
  readonly change: string;
  readonly outcome: 'better' | 'same' | 'worse';
  /** whether the change stayed on the bike */
  readonly kept: boolean;
}

/** Answers, and what was tried after them. */
export interface Round {
  readonly answers: readonly CaseAnswer[];
  readonly results: readonly CaseResult[];
}

export interface Case extends Round {
  readonly id: string;
  /** a path to a bike sheet, or the sheet itself as in a bike file */
  readonly bike?: string | Readonly<Record<string, unknown>>;
  readonly said?: string;
  /** rounds before this one, oldest first: their trials changed the bike before these answers were given */
  readonly earlier: readonly Round[];
}

/** Something wrong with a case: where (a path into it), what, and the remedy. */
export interface CaseProblem {
  readonly path: readonly (string | number)[];
  /** the key meant, when it is a key and not its value */
  readonly key?: string;
  readonly severity: 'error' | 'warning';
  readonly message: string;
  readonly remedy: string;
}

export interface ReadCase {
  /** absent when any error was found */
  readonly value?: Case;
  readonly problems: readonly CaseProblem[];
}

export const CANNOT_TELL = 'cannot-tell';
const KEYS = ['case', 'id', 'bike', 'said', 'answers', 'results', 'earlier', 'note'] as const;
const SURE: readonly string[] = ['sure', 'fairly', 'guess'];
const OUTCOMES: readonly string[] = ['better', 'same', 'worse'];

export interface CaseVocabulary {
  readonly questions: ReadonlyMap<string, Question>;
  readonly retired: CompiledRules['retired'];
  readonly adjustments: ReadonlySet<string>;
}

export function vocabularyOf(rules: CompiledRules): CaseVocabulary {
  return {
    questions: new Map(rules.questions.map((q) => [q.id, q])),
    retired: rules.retired,
    adjustments: new Set(rules.adjustments.map((a) => a.id)),
  };
}

/** @param fallbackId the id of a record that gives none, such as its file and line */
export function readCase(raw: unknown, vocabulary: CaseVocabulary, fallbackId: string): ReadCase {
  const problems: CaseProblem[] = [];
  const wrong: Wrong = (path, message, remedy, key) =>
    problems.push({ path, severity: 'error', message, remedy, ...(key === undefined ? {} : { key }) });
  if (!isMap(raw)) {
    wrong(
      [],
      `A case must be a map, found ${kindOf(raw)}.`,
      'Write case: 1, id: and answers: as in the examples.',
    );
    return { problems };
  }
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
  const said = raw['said'] ?? undefined;
  if (said !== undefined && typeof said !== 'string')
    wrong(['said'], `said must be a text, found ${kindOf(said)}.`, 'Put the words between quotes.');
  const round = readRound(raw, [], vocabulary, wrong);
  const earlier = readEarlier(raw['earlier'], vocabulary, wrong);
  if (problems.length > 0) return { problems };
  return {
    value: {
      id: String(id),
      ...(bike === undefined ? {} : { bike: bike as NonNullable<Case['bike']> }),
      ...(said === undefined ? {} : { said: said as string }),
      ...round,
      earlier,
    },
    problems,
  };
}

type Wrong = (path: readonly (string | number)[], message: string, remedy: string, key?: string) => void;

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
  return {
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
    if (isMap(round)) return readRound(round, ['earlier', i], vocabulary, wrong);
    wrong(
      ['earlier', i],
      `A round must be a map, found ${kindOf(round)}.`,
      'Write - answers: ... results: ...',
    );
    return { answers: [], results: [] };
  });
}

function readAnswers(
  raw: unknown,
  at: readonly (string | number)[],
  { questions, retired }: CaseVocabulary,
  wrong: Wrong,
): CaseAnswer[] {
  if (raw === undefined || raw === null) return [];
  if (!isMap(raw)) {
    wrong(
      at,
      `answers must be a map of question: answer, found ${kindOf(raw)}.`,
      'Write each as question-id: answer.',
    );
    return [];
  }
  return Object.entries(raw).flatMap(([id, given]): CaseAnswer[] => {
    const question = questions.get(id);
    if (question === undefined) {
      const heir = retired[id];
      const sided = ['front', 'rear'].map((end) => `${id}@${end}`).filter((s) => questions.has(s));
      const remedy =
        heir !== undefined
          ? `It was retired; use ${heir}.`
          : sided.length > 0
            ? `Say which end: ${sided.join(' or ')}.`
            : didYouMean(id, questions.keys()) || 'See earshot rules show for the ids.';
      wrong(at, `There is no question ${shorten(id)}.`, remedy, id);
      return [];
    }
    let answer: unknown = given;
    let sure: unknown = 'sure';
    if (isMap(given)) {
      answer = given['answer'];
      sure = given['sure'] ?? 'sure';
      for (const key of Object.keys(given)) {
        if (key !== 'answer' && key !== 'sure')
          wrong(
            [...at, id],
            `An answer has no key ${shorten(key)}.`,
            'Write {answer: ..., sure: sure | fairly | guess}.',
            key,
          );
      }
    }
    const ids = question.answers.map((a) => a.id);
    if (typeof answer !== 'string') {
      wrong(
        [...at, id],
        `The answer to ${id} must be a word, found ${show(answer)}.`,
        `Answers: ${[...ids, CANNOT_TELL].join(', ')}.`,
      );
      return [];
    }
    if (answer !== CANNOT_TELL && !ids.includes(answer)) {
      wrong(
        [...at, id],
        `${id} has no answer ${shorten(answer)}.`,
        didYouMean(answer, [...ids, CANNOT_TELL]) || `Answers: ${[...ids, CANNOT_TELL].join(', ')}.`,
      );
      return [];
    }
    if (typeof sure !== 'string' || !SURE.includes(sure)) {
      wrong(
        [...at, id, 'sure'],
        `sure must be sure, fairly or guess, found ${show(sure)}.`,
        didYouMean(String(sure), SURE) || 'Use one of the three words.',
      );
      return [];
    }
    return [{ question: id, answer, sure: sure as Sure }];
  });
}

function readResults(
  raw: unknown,
  at: readonly (string | number)[],
  vocabulary: CaseVocabulary,
  wrong: Wrong,
): CaseResult[] {
  if (raw === undefined || raw === null) return [];
  if (!Array.isArray(raw)) {
    wrong(
      at,
      `results must be a list, found ${kindOf(raw)}.`,
      'Write - {change: front.rebound.low+2, outcome: better}.',
    );
    return [];
  }
  return raw.flatMap((entry: unknown, i): CaseResult[] => {
    const here = [...at, i];
    if (!isMap(entry)) {
      wrong(
        here,
        `A result must be a map, found ${kindOf(entry)}.`,
        'Write {change: front.rebound.low+2, outcome: better}.',
      );
      return [];
    }
    for (const key of Object.keys(entry)) {
      if (!['change', 'outcome', 'kept', 'trial', 'date'].includes(key))
        wrong(here, `A result has no key ${shorten(key)}.`, 'Keys: change, outcome, kept.', key);
    }
    const { change, outcome } = entry;
    const kept = entry['kept'] ?? outcome === 'better';
    const fault =
      typeof change !== 'string'
        ? {
            message: `change must be a text, found ${show(change)}.`,
            remedy: 'Write it like front.rebound.low+2, or give an adjustment id.',
          }
        : changeFault(change, vocabulary);
    if (fault !== undefined) wrong([...here, 'change'], fault.message, fault.remedy);
    if (typeof outcome !== 'string' || !OUTCOMES.includes(outcome))
      wrong(
        [...here, 'outcome'],
        `outcome must be better, same or worse, found ${show(outcome)}.`,
        didYouMean(String(outcome), OUTCOMES) || 'Use one of the three words.',
      );
    if (typeof kept !== 'boolean')
      wrong(
        [...here, 'kept'],
        `kept must be true or false, found ${show(kept)}.`,
        'Leave it out: better is kept, the rest is taken back.',
      );
    if (
      fault !== undefined ||
      typeof outcome !== 'string' ||
      !OUTCOMES.includes(outcome) ||
      typeof kept !== 'boolean'
    )
      return [];
    return [{ change: change as string, outcome: outcome as CaseResult['outcome'], kept }];
  });
}

function changeFault(
  change: string,
  { adjustments }: CaseVocabulary,
): { message: string; remedy: string } | undefined {
  if (adjustments.has(change)) return undefined;
  const { problems } = parseChange(change);
  return problems[0];
}

function isMap(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function kindOf(value: unknown): string {
  return value === undefined || value === null
    ? 'nothing'
    : Array.isArray(value)
      ? 'a list'
      : typeof value === 'object'
        ? 'a map'
        : `the ${typeof value} ${show(value)}`;
}

function show(value: unknown): string {
  if (value === undefined) return 'nothing';
  if (typeof value === 'number' || typeof value === 'boolean') return String(value);
  return typeof value === 'string'
    ? shorten(value)
    : value === null
      ? 'nothing'
      : Array.isArray(value)
        ? 'a list'
        : 'a map';
}

/** One printable line, however long or odd the text. */
function shorten(text: string): string {
  // oxlint-disable-next-line no-control-regex -- control characters of a case must not reach a terminal
  const clean = text.replace(/[\u0000-\u001f\u007f-\u009f]/g, '?');
  return clean.length > 50 ? `${clean.slice(0, 47)}...` : clean;
}

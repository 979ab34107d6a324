/** Validated rule files → the compiled rule base, or every problem that stands in the way. */
import { factValues } from '../bike/facts.ts';
import { COMPILED_FORMAT, type Caution, type CompiledRules, type RideRules } from './compiled.ts';
import { type Check, expandChecks } from './compile-checks.ts';
import { linkAdjustments } from './compile-adjustments.ts';
import { linkQuestions } from './compile-questions.ts';
import { linkSettings } from './compile-settings.ts';
import {
  glossaryOf,
  knownTopics,
  linkOpening,
  judgedReadings,
  linkPhrases,
  withSentences,
} from './compile-words.ts';
import { entriesOf, reporter, standing, type Entry, type Report, type RuleFileOf } from './entries.ts';
import { figuresOf } from './figures.ts';
import type { Numbers } from './numbers-schema.ts';
import type { Parsed } from '../form/parse.ts';
import { sortProblems, type Problem } from '../form/problem.ts';
import { NEAR, type Near, type PackFile } from './schema/pack.ts';
import { didYouMean } from '../form/suggest.ts';

export interface PackSource {
  readonly pack: PackFile;
  readonly packParsed: Parsed;
  readonly files: readonly RuleFileOf[];
}

export interface Compilation {
  /** absent when any error was found */
  readonly rules?: CompiledRules;
  readonly checks: readonly Check[];
  readonly problems: readonly Problem[];
}

/** Compiles packs in order; a later pack adds to the earlier ones and replaces their entries by id. */
export function compile(packs: readonly PackSource[], digest: string): Compilation {
  const problems: Problem[] = [];
  const report = reporter(problems);
  const files = packs.flatMap((p) => p.files);
  const first = packs[0];
  if (first === undefined || files.every((f) => Object.keys(f.rules).length === 0)) {
    report(
      { file: first?.packParsed.file ?? 'rules', line: 0, col: 0 },
      'no-rules',
      'No rule was found.',
      'Point --rules at a folder with a pack.yaml and rule files.',
    );
    return { checks: [], problems };
  }
  const scale = wordScale(packs);
  const numbers = layeredNumbers(packs, report);
  const offTarget = packs.findLast(({ pack }) => pack['off-target'] !== undefined)?.pack['off-target'];
  const leftAlone = packs.findLast(({ pack }) => pack['left-alone'] !== undefined)?.pack['left-alone'];
  const againstTest = packs.findLast(({ pack }) => pack['against-test'] !== undefined)?.pack['against-test'];
  const usualNote = packs.findLast(({ pack }) => pack['usual-note'] !== undefined)?.pack['usual-note'];
  const figures = figuresOf(packs.map(({ pack }) => pack.figures ?? {}));
  const entries = {
    settings: entriesOf(files, 'settings', report, figures.texts),
    questions: entriesOf(files, 'questions', report, figures.texts),
    adjustments: entriesOf(files, 'adjustments', report, figures.texts),
    cautions: entriesOf(files, 'cautions', report, figures.texts),
    concepts: entriesOf(files, 'concepts', report),
    endNames: entriesOf(files, 'end-names', report),
    words: entriesOf(files, 'words', report),
    heard: entriesOf(files, 'heard', report),
    sentences: entriesOf(files, 'sentences', report),
    openings: entriesOf(files, 'openings', report),
  };
  const retired = retiredIds(
    [...entries.settings, ...entries.questions, ...entries.adjustments, ...entries.cautions],
    report,
  );
  const word = frequencies(scale, report);
  const cautions = entries.cautions.map((e): Caution => ({
    id: e.id,
    level: e.data.level,
    text: e.fill(e.data.text),
    ...(e.data['text-at'] === undefined
      ? {}
      : { textAt: { front: e.fill(e.data['text-at'].front), rear: e.fill(e.data['text-at'].rear) } }),
    show: e.data.show,
    ...standing(e),
  }));
  const cautionIds = new Set(cautions.map((c) => c.id));
  const { settings, adjusters, causes } = linkSettings(
    entries.settings,
    numbers['expected-causes'],
    cautionIds,
    word,
    report,
  );
  const facts = factValues(adjusters);
  const nearEnough: Near = Object.assign(
    {},
    NEAR,
    ...packs.map(({ pack }) => pack['sheet-check']?.near ?? {}),
  );
  const gauges = { bands: figures.bands, near: nearEnough };
  const context = { settings, adjusters, facts, causes, cautionIds, retired, gauges, word, report };
  const questions = withSentences(entries.sentences, linkQuestions(entries.questions, context), report);
  const { of: broad } = numbers['one-impression'];
  if (broad !== '' && !questions.some((q) => q.id === broad))
    report(
      packs
        .findLast(({ pack }) => pack.numbers?.['one-impression'] !== undefined)!
        .packParsed.locate(['numbers', 'one-impression', 'of']),
      'unknown-id',
      `one-impression › of: there is no question ${broad}.`,
      didYouMean(
        broad,
        questions.map((q) => q.id),
      ),
    );
  const adjustments = linkAdjustments(entries.adjustments, context, numbers, questions);
  const topics = new Set(questions.map((q) => q.topic));
  // Figures are read in every pack.
  const conceptIds = new Set(['number', ...entries.concepts.map((e) => e.id)]);
  const checks = expandChecks(files, { questions, causes, adjustments: adjustments, cautionIds, report });
  const rules: CompiledRules = {
    format: COMPILED_FORMAT,
    packs: packs.map(({ pack }) => ({ name: pack.pack, version: pack.version })),
    digest,
    numbers,
    scale,
    settings,
    adjusters,
    causes,
    questions,
    adjustments: adjustments,
    cautions,
    concepts: entries.concepts.map((e) => ({
      id: e.id,
      words: e.data.words,
      where: e.data.where ?? false,
      same: e.data.same ?? false,
      masks: e.data.masks ?? false,
      well: e.data.well ?? false,
      notAbout: knownTopics(e, questions, report),
      tells: { ...e.data.tells, putBack: e.data.tells?.['put-back'] },
      at: e.at,
    })),
    endNames: entries.endNames.map(({ data }) => ({
      end: data.id,
      names: data.names,
      parts: data.parts ?? [],
      hints: data.hints ?? [],
    })),
    heard: judgedReadings(entries.heard, questions, report),
    words: linkPhrases(entries.words, questions, report, conceptIds),
    glossary: glossaryOf(files),
    openings: entries.openings.map((e) => linkOpening(e, topics, questions, report)),
    rideRules: packs.findLast(({ pack }) => pack['ride-rules'])?.pack['ride-rules'] ?? NO_RULES,
    sheetAsks: Object.assign({}, ...packs.map(({ pack }) => pack['sheet-asks'] ?? {})),
    reasons: Object.assign({}, ...packs.map(({ pack }) => pack.reasons ?? {})),
    sheetCheck: {
      near: nearEnough,
      todo: Object.assign({}, ...packs.map(({ pack }) => pack['sheet-check']?.todo ?? {})),
    },
    feelings: packs.findLast(({ pack }) => pack.feelings !== undefined)?.pack.feelings ?? [],
    ...(againstTest === undefined ? {} : { againstTest }),
    ...(leftAlone === undefined ? {} : { leftAlone }),
    ...(offTarget === undefined ? {} : { offTarget }),
    ...(usualNote === undefined ? {} : { usualNote }),
    retired: Object.fromEntries(retired),
  };
  const bad = problems.some((p) => p.severity === 'error');
  return { ...(bad ? {} : { rules }), checks, problems: sortProblems(problems) };
}

const NO_RULES: RideRules = { first: [], helped: [], alone: [], last: [], brief: [] };

function wordScale(packs: readonly PackSource[]): Record<string, number> {
  const scale: Record<string, number> = {};
  for (const { pack } of packs) {
    for (const [word, percent] of Object.entries(pack['word-scale']?.percent ?? {}))
      scale[word] = percent / 100;
  }
  return scale;
}

function layeredNumbers(packs: readonly PackSource[], report: Report): Numbers {
  const merged: Partial<Numbers> = Object.assign({}, ...packs.map(({ pack }) => pack.numbers ?? {}));
  const needed = [
    'causes-at-once',
    'expected-causes',
    'trust',
    'slip',
    'one-story',
    'sure',
    'asking',
    'fit',
    'advice',
    'sheet',
    'results',
    'trial',
  ] as const;
  for (const key of needed) {
    if (merged[key] === undefined) {
      report(
        packs[0]!.packParsed.locate(['numbers']),
        'shape',
        `pack.yaml: numbers › ${key} is missing.`,
        `Add ${key}: under numbers:.`,
      );
    }
  }
  return {
    'causes-at-once': 1,
    'expected-causes': 1,
    tried: {
      doubt: 0.25,
      lasts: 0.25,
      upsets: 0.06,
      'still-on': { better: 0.9, same: 0.4, worse: 0.2, 'not-sure': 0.5 },
    },
    none: { prior: 0, signs: 0 },
    'one-impression': { prior: 0, bound: 0, of: '' },
    following: { prior: 0, share: 0 },
    rider: { spread: 0, from: 3, least: 0, stays: 0 },
    ...merged,
  } as Numbers;
}

/** A frequency word → its probability; an unknown word is reported where it stands. */
function frequencies(scale: Readonly<Record<string, number>>, report: Report) {
  return (text: string, place: Parameters<Report>[0]): number => {
    const value = scale[text];
    if (value !== undefined) return value;
    const hint = didYouMean(text, Object.keys(scale));
    report(
      place,
      'unknown-word',
      `${text} is not a word of the scale.`,
      hint || `Use one of: ${Object.keys(scale).join(', ')}.`,
    );
    return 0.5;
  };
}

function retiredIds(
  entries: readonly Entry<{ status: string; heir?: string | undefined }>[],
  report: Report,
): Map<string, string> {
  const retired = new Map<string, string>();
  const ids = new Set(entries.map((e) => e.id));
  for (const e of entries) {
    if (e.data.status !== 'retired') continue;
    if (e.data.heir === undefined) {
      report(
        e.place(),
        'no-heir',
        `${e.id} is retired and names no heir.`,
        'Add heir: with the id that took its place.',
      );
      continue;
    }
    const heir = e.fill(e.data.heir);
    const full = ids.has(heir) || e.end === undefined ? heir : `${heir}@${e.end}`;
    if (!ids.has(full))
      report(e.place(['heir']), 'unknown-id', `The heir ${full} does not exist.`, didYouMean(full, ids));
    retired.set(e.id, full);
  }
  return retired;
}

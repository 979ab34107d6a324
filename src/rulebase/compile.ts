/** Validated rule files → the compiled rule base, or every problem that stands in the way. */
import { factValues } from '../bike/facts.ts';
import { COMPILED_FORMAT, withoutEnd, type Caution, type CompiledRules } from './compiled.ts';
import { expandChecks, type Check } from './compile-checks.ts';
import { linkAdjustments } from './compile-adjustments.ts';
import { linkQuestions } from './compile-questions.ts';
import { linkSettings } from './compile-settings.ts';
import {
  glossaryOf,
  judgedReadings,
  linkConcept,
  linkOpening,
  linkPhrases,
  withSentences,
} from './compile-words.ts';
import { entriesOf, standing, type Entry, type Section, type SourceOf } from './entries.ts';
import { reporter } from './look-up.ts';
import {
  figuresOf,
  frequencies,
  layeredNumbers,
  merged,
  sentencesOf,
  wordScale,
  type PackSource,
} from './pack-layers.ts';
import type { LinkContext } from './question-links.ts';
import { defined } from '../form/plain-data.ts';
import { sortProblems, type Problem } from '../form/problem.ts';
import { didYouMean } from '../form/suggest.ts';

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
  const sentences = sentencesOf(packs);
  const figures = figuresOf(packs);
  const all = <S extends Section>(section: S): Entry<SourceOf<S>>[] => entriesOf(files, section, report);
  const filled = <S extends Section>(section: S): Entry<SourceOf<S>>[] =>
    entriesOf(files, section, report, figures.texts);
  const entries = {
    settings: filled('settings'),
    questions: filled('questions'),
    adjustments: filled('adjustments'),
    cautions: filled('cautions'),
    concepts: all('concepts'),
    endNames: all('end-names'),
    words: all('words'),
    heard: all('heard'),
    sentences: all('sentences'),
    openings: all('openings'),
  };
  const retired = retiredIds([
    ...entries.settings,
    ...entries.questions,
    ...entries.adjustments,
    ...entries.cautions,
  ]);
  const word = frequencies(scale, report);
  const cautions = entries.cautions.map(linkCaution);
  const cautionIds = new Set(cautions.map((c) => c.id));
  const expected = numbers['expected-causes'];
  const { settings, adjusters, causes } = linkSettings(entries.settings, expected, cautionIds, word);
  const context: LinkContext = {
    settings,
    adjusters,
    facts: factValues(adjusters),
    causes,
    settingIndex: new Map(settings.map(({ id }, i) => [id, i])),
    causeIndex: new Map(causes.map(({ id }, i) => [id, i])),
    cautionIds,
    gauges: {
      bands: figures.bands,
      near: sentences.sheetCheck.near,
      like: merged(packs, 'number-examples'),
    },
    word,
  };
  const questions = withSentences(entries.sentences, linkQuestions(entries.questions, context));
  const { of: broad } = numbers['one-impression'];
  if (broad !== '' && !questions.some((q) => q.id === broad && q.end === undefined))
    report(
      packs
        .findLast(({ pack }) => pack.numbers?.['one-impression'] !== undefined)!
        .packParsed.locate(['numbers', 'one-impression', 'of']),
      'unknown-id',
      `one-impression › of: there is no question ${broad} of the whole bike.`,
      didYouMean(
        broad,
        questions.map((q) => q.id),
      ),
    );
  const adjustments = linkAdjustments(entries.adjustments, context, numbers, questions);
  const topics = new Set(questions.map((q) => withoutEnd(q.id)));
  // Figures are read in every pack.
  const conceptIds = new Set(['number', ...entries.concepts.map((e) => e.id)]);
  const known = {
    questions,
    causes: context.causeIndex,
    adjustments: new Set(adjustments.map((a) => a.id)),
    cautions: cautionIds,
  };
  const checks = expandChecks(files, known, report);
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
    adjustments,
    cautions,
    concepts: entries.concepts.map((e) => linkConcept(e, topics)),
    endNames: entries.endNames.map(({ data: { id, names, parts = [], hints = [] } }) => ({
      end: id,
      names,
      parts,
      hints,
    })),
    heard: judgedReadings(entries.heard, topics),
    words: linkPhrases(entries.words, questions, conceptIds),
    glossary: glossaryOf(files),
    openings: entries.openings.map((e) => linkOpening(e, questions)),
    ...sentences,
    retired: Object.fromEntries(retired),
  };
  const bad = problems.some((p) => p.severity === 'error');
  return { ...(bad ? {} : { rules }), checks, problems: sortProblems(problems) };
}

function linkCaution(e: Entry<SourceOf<'cautions'>>): Caution {
  const { level, text, 'text-at': at, show } = e.data;
  return defined<Caution>({
    id: e.id,
    level,
    text: e.fill(text),
    textAt: at && { front: e.fill(at.front), rear: e.fill(at.rear) },
    show,
    ...standing(e),
  });
}

function retiredIds(
  entries: readonly Entry<{ status: string; heir?: string | undefined }>[],
): Map<string, string> {
  const retired = new Map<string, string>();
  const ids = new Set(entries.map((e) => e.id));
  for (const e of entries) {
    if (e.data.status !== 'retired') continue;
    if (e.data.heir === undefined) {
      e.wrong(
        [],
        'no-heir',
        `${e.id} is retired and names no heir.`,
        'Add heir: with the id that took its place.',
      );
      continue;
    }
    const heir = e.fill(e.data.heir);
    const full = ids.has(heir) || e.end === undefined ? heir : `${heir}@${e.end}`;
    if (!ids.has(full))
      e.wrong(['heir'], 'unknown-id', `The heir ${full} does not exist.`, didYouMean(full, ids));
    retired.set(e.id, full);
  }
  return retired;
}

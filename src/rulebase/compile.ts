/** Validated rule files → the compiled rule base, or every problem that stands in the way. */
import {
  COMPILED_FORMAT,
  type Caution,
  type Check,
  type CompiledRules,
  type Opening,
  type Phrase,
} from './compiled.ts';
import { linkAdjustments } from './compile-adjustments.ts';
import { expandChecks } from './compile-checks.ts';
import { linkQuestions } from './compile-questions.ts';
import { linkSettings } from './compile-settings.ts';
import { entriesOf, reporter, standing, type Entry, type Report, type RuleFileOf } from './entries.ts';
import type { Parsed } from './parse.ts';
import { sortProblems, type Problem } from './problem.ts';
import type { Numbers, PackFile } from './schema.ts';
import { didYouMean } from './suggest.ts';

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
  const entries = {
    settings: entriesOf(files, 'settings', report),
    questions: entriesOf(files, 'questions', report),
    adjustments: entriesOf(files, 'adjustments', report),
    cautions: entriesOf(files, 'cautions', report),
    words: entriesOf(files, 'words', report),
    openings: entriesOf(files, 'openings', report),
  };
  const retired = retiredIds(
    [...entries.settings, ...entries.questions, ...entries.adjustments, ...entries.cautions],
    report,
  );
  const word = frequencies(scale, report);
  const { settings, causes } = linkSettings(entries.settings, numbers['expected-causes'], word, report);
  const cautions = entries.cautions.map((e): Caution => ({
    id: e.id,
    level: e.data.level,
    text: e.fill(e.data.text),
    show: e.data.show,
    ...standing(e),
  }));
  const cautionIds = new Set(cautions.map((c) => c.id));
  const context = { settings, causes, cautionIds, retired, word, report };
  const questions = linkQuestions(entries.questions, context);
  const adjustments = linkAdjustments(entries.adjustments, context, numbers);
  const topics = new Set(questions.map((q) => q.topic));
  const checks = expandChecks(files, { questions, causes, adjustments, cautionIds, report });
  const rules: CompiledRules = {
    format: COMPILED_FORMAT,
    packs: packs.map(({ pack }) => ({ name: pack.pack, version: pack.version })),
    digest,
    numbers,
    scale,
    settings,
    causes,
    questions,
    adjustments,
    cautions,
    words: entries.words.map((e) => phrase(e, questions, report)),
    glossary: glossary(files),
    openings: entries.openings.map((e) => opening(e, topics, questions, report)),
    retired: Object.fromEntries(retired),
  };
  const bad = problems.some((p) => p.severity === 'error');
  return { ...(bad ? {} : { rules }), checks, problems: sortProblems(problems) };
}

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
  return { 'causes-at-once': 1, 'expected-causes': 1, ...merged } as Numbers;
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

function phrase(
  e: Entry<NonNullable<RuleFileOf['rules']['words']>[number]>,
  questions: CompiledRules['questions'],
  report: Report,
): Phrase {
  const { data } = e;
  // A phrase names no end, so it may point at the question of either end: {end} is filled in when it is matched.
  const known = new Map(
    questions.flatMap((q) => [[q.id, q] as const, [q.id.replace(/@(front|rear)$/, '@{end}'), q] as const]),
  );
  (data['could-be'] ?? []).forEach((c, i) => {
    const q = known.get(c.question);
    if (q === undefined)
      report(
        e.place(['could-be', i, 'question']),
        'unknown-id',
        `No question ${c.question}.`,
        didYouMean(c.question, known.keys()),
      );
    else if (!q.answers.some((a) => a.id === c.answer)) {
      const ids = q.answers.map((a) => a.id);
      report(
        e.place(['could-be', i, 'answer']),
        'unknown-id',
        `${c.question} has no answer ${c.answer}.`,
        didYouMean(c.answer, ids) || `Answers: ${ids.join(', ')}.`,
      );
    }
  });
  (data.separates ?? []).forEach((id, i) => {
    if (!known.has(id))
      report(e.place(['separates', i]), 'unknown-id', `No question ${id}.`, didYouMean(id, known.keys()));
  });
  return {
    id: e.id,
    says: data.says,
    ambiguous: data.ambiguous ?? false,
    means: data.means ?? [],
    separates: data.separates ?? [],
    couldBe: data['could-be'] ?? [],
    at: e.at,
  };
}

function opening(
  e: Entry<NonNullable<RuleFileOf['rules']['openings']>[number]>,
  topics: ReadonlySet<string>,
  questions: CompiledRules['questions'],
  report: Report,
): Opening {
  e.data.topics.forEach((topic, i) => {
    if (!topics.has(topic))
      report(
        e.place(['topics', i]),
        'unknown-id',
        `No question has the topic ${topic}.`,
        didYouMean(topic, topics),
      );
  });
  const answers = e.data.answers ?? {};
  for (const [id, answer] of Object.entries(answers)) {
    const question = questions.find((q) => q.id === id);
    if (question === undefined) {
      const ids = questions.map((q) => q.id);
      report(e.place(['answers'], id), 'unknown-id', `No question ${id}.`, didYouMean(id, ids));
    } else if (!question.answers.some((a) => a.id === answer)) {
      const ids = question.answers.map((a) => a.id);
      report(
        e.place(['answers', id]),
        'unknown-id',
        `${id} has no answer ${answer}.`,
        didYouMean(answer, ids) || `Answers: ${ids.join(', ')}.`,
      );
    }
  }
  return { id: e.id, say: e.data.say, plain: e.data.plain, topics: e.data.topics, answers };
}

function glossary(files: readonly RuleFileOf[]): CompiledRules['glossary'] {
  const terms = new Map<string, CompiledRules['glossary'][number]>();
  for (const file of files) {
    for (const { term, means, see } of file.rules.glossary ?? [])
      terms.set(term, { term, means, ...(see ? { see } : {}) });
  }
  return [...terms.values()].sort((a, b) => (a.term < b.term ? -1 : 1));
}

/**
 * What was learned → entries that override those of the pack: the same entries, with other words where the cases
 * plainly say so. Rules are words, so a strength becomes the nearest word that rules are written in.
 */
import type { CompiledRules } from '../rulebase/compiled.ts';
import type { QuestionSource } from '../rulebase/schema/question.ts';
import type { SettingSource } from '../rulebase/schema/setting.ts';
import { ladderOf, nearestRung } from './word-scale.ts';
import type { Learned } from './learn.ts';
import type { Spot } from '../casework/what-if/moved.ts';

/** The entries as they stand in the files, the last pack's where several have one id. */
export interface Sources {
  readonly questions: readonly QuestionSource[];
  readonly settings: readonly SettingSource[];
}

export interface MovedWord {
  /** index into the learned strengths, or priors */
  readonly index: number;
  readonly kind: 'strength' | 'prior';
  readonly from: string;
  readonly to: string;
  /** where the word stands: the section, the entry's place in it and the path inside the entry */
  readonly entry: string;
  readonly path: readonly string[];
}

export interface Overrides {
  readonly questions: readonly QuestionSource[];
  readonly settings: readonly SettingSource[];
  readonly moved: readonly MovedWord[];
  /** Σπ after the priors moved, so that those that did not keep theirs; undefined when none moved */
  readonly expectedCauses: number | undefined;
}

type End = 'front' | 'rear';

export function overridesOf(rules: CompiledRules, learned: Learned, sources: Sources): Overrides {
  const ladder = ladderOf(rules);
  const questions = new Map<string, QuestionSource>();
  const settings = new Map<string, SettingSource>();
  const moved: MovedWord[] = [];
  learned.strengths.forEach(({ strength, value, firm }, index) => {
    if (!firm) return;
    const from = nearestRung(ladder, strength.value).word;
    const to = nearestRung(ladder, value).word;
    if (from === to) return;
    const found = wordAt(rules, sources.questions, strength.spots);
    if (found === undefined) return;
    const entry = questions.get(found.entry.id) ?? structuredClone(found.entry);
    questions.set(entry.id, entry);
    setWord(entry, found.path, to);
    moved.push({ index, kind: 'strength', from, to, entry: entry.id, path: found.path });
  });
  const ratio = new Map<number, number>();
  learned.priors.forEach(({ rule, old, value, firm }, index) => {
    if (!firm) return;
    const cause = rules.causes[rule.causes[0]!]!;
    const setting = rules.settings[cause.setting]!;
    const source = sources.settings.find((s) => endsOf(s).some((end) => fill(s.id, end) === setting.id));
    const from = source?.directions[cause.direction]?.prior;
    if (source === undefined || from === undefined) return;
    const to = nearestRung(ladder, (rules.scale[from]! * value) / old).word;
    if (rules.scale[to] === rules.scale[from]) return;
    const entry = settings.get(source.id) ?? structuredClone(source);
    settings.set(entry.id, entry);
    const path = ['directions', cause.direction, 'prior'];
    setWord(entry, path, to);
    for (const c of rule.causes) ratio.set(c, rules.scale[to]! / rules.scale[from]!);
    moved.push({ index, kind: 'prior', from, to, entry: entry.id, path });
  });
  const sum = (scaled: boolean): number =>
    rules.causes.reduce((s, c, i) => s + c.prior * (scaled ? (ratio.get(i) ?? 1) : 1), 0);
  return {
    questions: [...questions.values()],
    settings: [...settings.values()],
    moved,
    expectedCauses:
      ratio.size === 0 ? undefined : (rules.numbers['expected-causes'] * sum(true)) / sum(false),
  };
}

/**
 * The word that stands for these spots. Undefined where one word also stands for something else (a cause written out
 * in a rule for both ends): moving it would move that too.
 */
function wordAt(
  rules: CompiledRules,
  entries: readonly QuestionSource[],
  spots: readonly Spot[],
): { entry: QuestionSource; path: readonly string[] } | undefined {
  const { question, answer, cause } = spots[0]!;
  const compiled = rules.questions[question]!;
  const sign = compiled.answers[answer]!.id;
  const entry = entries.find((e) => endsOf(e).some((end) => questionId(e, end) === compiled.id));
  if (entry === undefined) return undefined;
  if (cause < 0) return { entry, path: ['usually', sign] };
  const mine = new Set(spots.map((s) => `${rules.questions[s.question]!.id} ${rules.causes[s.cause]!.id}`));
  for (const template of Object.keys(entry['points-to'][sign] ?? {})) {
    const stands = endsOf(entry).map((end) => `${questionId(entry, end)} ${fill(template, end)}`);
    if (stands.includes(`${compiled.id} ${rules.causes[cause]!.id}`))
      return stands.every((s) => mine.has(s)) ? { entry, path: ['points-to', sign, template] } : undefined;
  }
  return undefined;
}

function endsOf(entry: { readonly for?: readonly End[] | undefined }): readonly (End | undefined)[] {
  return entry.for ?? [undefined];
}

function fill(text: string, end: End | undefined): string {
  if (end === undefined) return text;
  return text.replaceAll('{end}', end).replaceAll('{other}', end === 'front' ? 'rear' : 'front');
}

function questionId(entry: QuestionSource, end: End | undefined): string {
  return `${fill(entry.id, end)}${end === undefined ? '' : `@${end}`}`;
}

function setWord(entry: object, path: readonly string[], word: string): void {
  let here = entry as Record<string, unknown>;
  for (const key of path.slice(0, -1)) here = (here[key] ??= {}) as Record<string, unknown>;
  here[path.at(-1)!] = word;
}

/**
 * Scores a ranking of causes against what was found or given for real reports. The reports and their sources stand in
 * cases.yaml, the answers that writers apart from each other made of them in answers-*.yaml.
 */
import type { CaseAnswer } from '../../../src/casework/case.ts';
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import { frozen } from '../../../src/form/plain-data.ts';

export interface Report {
  readonly id: string;
  readonly tier: 'core' | 'extra' | 'contested';
  readonly source_key: string;
  readonly told: readonly string[];
  readonly answer: {
    readonly acceptable: readonly { readonly cause: string }[];
    readonly tolerated: readonly string[];
    readonly wrong: readonly string[];
  };
}

export interface Written {
  readonly id: string;
  readonly answers?: Readonly<Record<string, unknown>>;
  readonly tried?: readonly unknown[];
}

/** Where a ranking came out: the rank (from 1) of the first right cause, and what its first cause is. */
export interface Score {
  readonly id: string;
  readonly family: Family;
  readonly half: Half;
  readonly first: boolean;
  readonly three: boolean;
  readonly wrong: boolean;
  readonly tolerated: boolean;
}

export type Half = 'open' | 'scored';
export type Family = 'damping' | 'spring' | 'tyre' | 'service' | 'cockpit' | 'rider' | 'nothing';

/** Seen from the project's folder, where tests and scripts run. */
const read = new Map<string, unknown>();
/** Each is read once, and shared: so it is frozen. */
function file(name: string): unknown {
  if (!read.has(name))
    read.set(name, frozen(parse(readFileSync(`tests/published/field-cases/${name}`, 'utf8'))));
  return read.get(name);
}

export const reports = (): readonly Report[] => (file('cases.yaml') as { cases: Report[] }).cases;
export const written = (writer: string): readonly Written[] => file(`answers-${writer}.yaml`) as Written[];

/** What a writer gave to one question: one answer, or several in a list, each with how sure. */
export function listOf(given: unknown): { answer: string; sure: CaseAnswer['sure'] }[] {
  return [given].flat().map((one) => {
    const { answer, sure = 'sure' } = (typeof one === 'object' && one !== null ? one : { answer: one }) as {
      answer: unknown;
      sure?: CaseAnswer['sure'];
    };
    return { answer: String(answer), sure };
  });
}

/** The half that rules may be worked on with, and the half that is only scored: by a hash of the source. */
export function halfOf(report: Pick<Report, 'source_key'>): Half {
  return createHash('sha256').update(report.source_key).digest()[0]! % 2 === 0 ? 'open' : 'scored';
}

export function familyOf(cause: string): Family {
  if (/rebound|compression/.test(cause)) return 'damping';
  if (/spring|ramp-up/.test(cause)) return 'spring';
  if (cause.startsWith('tyre')) return 'tyre';
  if (cause.startsWith('service')) return 'service';
  if (cause.startsWith('cockpit')) return 'cockpit';
  return cause.startsWith('rider') ? 'rider' : 'nothing';
}

/** Our cause id → the names it goes by in the reports' answers. */
export function namesOfCauses(): ReadonlyMap<string, readonly string[]> {
  const out = new Map<string, readonly string[]>();
  for (const [id, value] of Object.entries(file('map.yaml') as Record<string, string | string[]>)) {
    const names = [value].flat();
    const ends = id.includes('{end}') ? ['front', 'rear'] : [''];
    for (const end of ends)
      out.set(
        id.replaceAll('{end}', end),
        names.map((n) => n.replaceAll('{end}', end)),
      );
  }
  return out;
}

/** Does a name of the answers' grammar hold this one? `any` holds both circuits. */
function holds(pattern: string, name: string): boolean {
  return (
    pattern === name ||
    (pattern.includes('.any.') && ['low', 'high'].some((c) => pattern.replace('.any.', `.${c}.`) === name)) ||
    (name.includes('.any.') && ['low', 'high'].some((c) => name.replace('.any.', `.${c}.`) === pattern))
  );
}

const among = (patterns: readonly string[], names: readonly string[]): boolean =>
  patterns.some((p) => names.some((n) => holds(p, n)));

/** @param ranked for each place of the ranking, the names its cause goes by */
export function score(report: Report, ranked: readonly (readonly string[])[]): Score {
  const right = report.answer.acceptable.map((a) => a.cause);
  const at = ranked.findIndex((names) => among(right, names));
  const top = ranked[0] ?? [];
  return {
    id: report.id,
    family: familyOf(right[0]!),
    half: halfOf(report),
    first: at === 0,
    three: at >= 0 && at < 3,
    wrong: at !== 0 && among(report.answer.wrong, top),
    tolerated: at !== 0 && among(report.answer.tolerated, top),
  };
}

/** Shares of the scores, in percent. */
export function shares(scores: readonly Score[]): {
  n: number;
  first: number;
  three: number;
  wrong: number;
  tolerated: number;
} {
  const percent = (of: (s: Score) => boolean): number =>
    scores.length === 0 ? 0 : (100 * scores.filter(of).length) / scores.length;
  return {
    n: scores.length,
    first: percent((s) => s.first),
    three: percent((s) => s.three),
    wrong: percent((s) => s.wrong),
    tolerated: percent((s) => s.tolerated),
  };
}

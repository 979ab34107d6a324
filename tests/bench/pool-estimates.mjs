/**
 * Pools the estimates of several heads into a pack: node tests/bench/pool-estimates.mjs PACK HEAD.yaml HEAD.yaml…
 * Writes PACK/estimates.json with what each head said, and the pooled strengths into the rule files as the nearest word
 * that rules are written in. --dry only counts. Build first. A head's file is question → sign → {base, cause: percent}.
 */
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse, parseDocument } from 'yaml';
import { pool } from '../../dist/evaluation/estimates.js';

const argv = process.argv.slice(2);
const dry = argv.includes('--dry');
const [pack, ...heads] = argv.filter((a) => a !== '--dry');
if (heads.length < 2) {
  console.error('Name a pack folder and at least two files of estimates.');
  process.exit(2);
}
const told = heads.map((file) => parse(readFileSync(file, 'utf8')));
const estimates = {};
for (const [question, signs] of Object.entries(told[0])) {
  if (question === 'priors') continue;
  estimates[question] = {};
  for (const sign of Object.keys(signs)) {
    const causes = new Set(told.flatMap((t) => Object.keys(t[question]?.[sign] ?? {})));
    estimates[question][sign] = Object.fromEntries(
      [...causes].map((cause) => [cause, told.map((t) => t[question]?.[sign]?.[cause] ?? 0)]),
    );
  }
}
const strengths = new Map(pool(estimates).map((p) => [p.id, p.strength]));
const scale = Object.entries(parse(readFileSync(join(pack, 'pack.yaml'), 'utf8'))['word-scale'].percent);
/** Words that mean clearly different things, as the guide of the rules lists them. */
const WORDS =
  'always,almost always,very often,usually,often,more often than not,as often as not,less often than not,sometimes,occasionally,once in a while,seldom,rarely,very rarely,never'.split(
    ',',
  );
const rungs = scale
  .filter(([word]) => WORDS.includes(word))
  .map(([word, percent]) => ({ word, p: percent / 100 }));
const logit = (p) => Math.log(p / (1 - p));
const nearest = (p) =>
  rungs.reduce((a, b) => (Math.abs(logit(b.p) - logit(p)) < Math.abs(logit(a.p) - logit(p)) ? b : a)).word;

let moved = 0;
let same = 0;
const folder = (path) =>
  readdirSync(path, { withFileTypes: true }).flatMap((e) =>
    e.isDirectory() ? folder(join(path, e.name)) : [join(path, e.name)],
  );
for (const file of folder(pack).filter((f) => f.endsWith('.yaml') && !/checks\.yaml$|pack\.yaml$/.test(f))) {
  const doc = parseDocument(readFileSync(file, 'utf8'));
  const questions = doc.get('questions')?.items ?? [];
  let changed = false;
  const put = (node, path, id) => {
    const strength = strengths.get(id);
    const now = node.getIn(path);
    if (strength === undefined || now === undefined || strength <= 0) return;
    const word = nearest(Math.min(0.997, Math.max(0.003, strength)));
    if (word === now) return void same++;
    node.setIn(path, word);
    moved++;
    changed = true;
  };
  for (const node of questions) {
    const id = node.get('id');
    if (node.get('measures') !== undefined) continue;
    for (const sign of Object.keys(node.toJSON().usually ?? {}))
      put(node, ['usually', sign], `${id} ${sign} usually`);
    for (const [sign, causes] of Object.entries(node.toJSON()['points-to'] ?? {}))
      for (const cause of Object.keys(causes))
        put(node, ['points-to', sign, cause], `${id} ${sign} ${cause}`);
  }
  if (changed && !dry) writeFileSync(file, doc.toString({ lineWidth: 120 }));
}
if (!dry) writeFileSync(join(pack, 'estimates.json'), `${JSON.stringify(estimates)}\n`);
console.log(
  `${strengths.size} estimates of ${heads.length} heads: ${moved} words moved, ${same} as they were. Format the files now.`,
);

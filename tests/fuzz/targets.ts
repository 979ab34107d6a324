/** What is thrown at the program: each target makes one command line with its files and its standard input. */
import { cpSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { parse, stringify } from 'yaml';
import { ROOT } from '../../src/host/root.ts';
import { below, mutateData, mutateText, pick, randomBytes, type Dice } from './mutate.ts';

export interface Throw {
  readonly argv: readonly string[];
  readonly stdin?: string | Uint8Array;
}

export interface Target {
  readonly name: string;
  /** how many of a hundred throws are its */
  readonly share: number;
  /** @param here a folder of its own, with `bikes/` in it */
  make(roll: Dice, here: string): Throw;
}

const FORMATS = ['text', 'json', 'ndjson', 'csv', 'markdown'];

function texts(folder: string): string[] {
  return readdirSync(join(ROOT, folder), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && /\.ya?ml$/.test(entry.name))
    .map((entry) => relative(ROOT, join(entry.parentPath, entry.name)))
    .sort();
}

const read = (path: string): string => readFileSync(join(ROOT, path), 'utf8');
const cases = texts('examples/cases').map(read);
const bikes = texts('examples/bikes').map(read);
const batch = read('examples/batch.ndjson').trim().split('\n');
const nightRide = texts('examples/packs/night-ride');
const baseFiles = texts('rules/base').filter((path) => !/checks\.yaml$|pack\.yaml$/.test(path));

/** Lays out the folder a throw is run in; what throws before it left there is gone. */
export function layOut(here: string): void {
  for (const name of readdirSync(here)) rmSync(join(here, name), { recursive: true });
  cpSync(join(ROOT, 'examples/bikes'), join(here, 'bikes'), { recursive: true });
}

function put(here: string, name: string, content: string | Uint8Array): string {
  mkdirSync(dirname(join(here, name)), { recursive: true });
  writeFileSync(join(here, name), content);
  return name;
}

/** Half of the time broken as text, half of the time well-formed but wrong. */
function brokenYaml(roll: Dice, text: string, others: readonly string[]): string {
  if (roll() < 0.5) return mutateText(roll, text, others);
  return stringify(mutateData(roll, parse(text)));
}

const caseCommand = (roll: Dice, file: string): string[] =>
  pick(roll, [
    ['diagnose', file, '--format', pick(roll, FORMATS)],
    ['diagnose', file, '--format', pick(roll, ['text', 'json', 'ndjson']), '--full', '--next', '--explain'],
    ['diagnose', file, '--format', pick(roll, ['csv', 'markdown']), '--next'],
    ['explain', file, '--conflict'],
    ['explain', file, 'front.rebound.high.too-slow', '--format', 'json'],
    ['report', file, '--format', pick(roll, ['html', 'markdown'])],
  ]);

const COMMAND_WORDS = (
  'diagnose explain interview predict words rules show check help report completion bash bike new start log change ' +
  'undo note history diff export trial plan record judge next --format json csv text html -f --full --explain --next ' +
  '--bike bikes/coil.yaml bikes/few-knobs.yaml case.yaml absent.yaml - -- -V --help --nonsense --change --reason ' +
  'rear.rebound.low-2 front.spring+0 front.rebound.high+99 --color never --rules bikes --list --only ( questions causes ' +
  '--sweep front.ramp-up --celsius 1e9 __proto__ constructor harsh schema case --set front.travel=0 --kind trail ' +
  '--rating grip=5 --run plus --last 3 2026-05-01 --no-save --no-log --trial ../../x --id a/b --units psi --resume'
).split(' ');

export const targets: readonly Target[] = [
  {
    name: 'random bytes',
    share: 10,
    make(roll, here) {
      const bytes = randomBytes(roll, 3000);
      if (roll() < 0.4) return { argv: ['diagnose', '-', '--format', pick(roll, FORMATS)], stdin: bytes };
      const file = put(here, `bytes.${pick(roll, ['yaml', 'json', 'ndjson', 'txt'])}`, bytes);
      return {
        argv: pick(roll, [
          ['diagnose', file],
          ['explain', file],
          ['report', file],
          ['diagnose', join(ROOT, 'examples/cases/nothing-wrong.yaml'), '--bike', file],
          ['predict', '--bike', file, '--change', 'front.rebound.low+2'],
        ]),
      };
    },
  },
  {
    name: 'broken cases',
    share: 40,
    make(roll, here) {
      const text = brokenYaml(roll, pick(roll, cases), cases).replaceAll('../bikes/', 'bikes/');
      return { argv: caseCommand(roll, put(here, 'case.yaml', text)) };
    },
  },
  {
    name: 'broken NDJSON',
    share: 20,
    make(roll) {
      const lines = Array.from({ length: 1 + below(roll, 6) }, () => pick(roll, batch));
      const stdin = lines
        .map((line) =>
          roll() < 0.3
            ? mutateText(roll, line, batch)
            : roll() < 0.6
              ? (JSON.stringify(mutateData(roll, JSON.parse(line))) ?? '')
              : line,
        )
        .join(pick(roll, ['\n', '\n', '\r\n', '\n\n', '']));
      const more = pick(roll, [[], ['--next'], ['--explain'], ['--next', '--explain', '--full']]);
      return { argv: ['diagnose', '-', '--format', pick(roll, FORMATS), ...more], stdin };
    },
  },
  {
    name: 'broken bike sheets',
    share: 15,
    make(roll, here) {
      const file = put(here, 'bike.yaml', brokenYaml(roll, pick(roll, bikes), bikes));
      const knob = `${pick(roll, ['front', 'rear'])}.${pick(roll, ['rebound.low', 'compression.high', 'spring', 'ramp-up', 'tyre'])}`;
      return {
        argv: pick(roll, [
          ['predict', '--bike', file, '--change', `${knob}${pick(roll, ['+2', '-1', '+40', ''])}`],
          ['predict', '--bike', file, '--change', `${knob}+1`, '--format', 'json', '--full'],
          ['diagnose', join(ROOT, 'examples/cases/nothing-wrong.yaml'), '--bike', file],
          ['diagnose', '-', '--bike', file, '--format', 'json', '--full'],
        ]),
        stdin: pick(roll, batch),
      };
    },
  },
  {
    name: 'broken rule packs',
    share: 5,
    make(roll, here) {
      for (const path of nightRide) put(here, path.replace('examples/packs/night-ride', 'pack'), read(path));
      const victim = pick(roll, [...nightRide, ...baseFiles, ...baseFiles.slice(0, 4)]);
      put(here, `pack/${victim.split('/').at(-1)}`, brokenYaml(roll, read(victim), [read(victim)]));
      return {
        argv: pick(roll, [
          ['--rules', 'pack', 'rules', 'check', '--only', 'lamp'],
          ['--rules', 'pack', 'rules', 'show', 'questions'],
          ['--rules', 'pack', 'diagnose', '-', '--format', 'json', '--full', '--next', '--explain'],
        ]),
        stdin: pick(roll, batch),
      };
    },
  },
  {
    name: 'broken logs to learn from',
    share: 2,
    make(roll) {
      const outcomes = ['better', 'same', 'worse', 'great', ''];
      const stdin = Array.from({ length: 1 + below(roll, 4) }, (): string => {
        const change = pick(roll, ['front.rebound.high+2', 'rear.spring-5psi', 'front.rebound.low+0', 'x']);
        const record: unknown = JSON.parse(pick(roll, batch));
        const results = [{ change, outcome: pick(roll, outcomes), kept: roll() < 0.5 }];
        const logged = { ...(record as object), results };
        return JSON.stringify(roll() < 0.3 ? mutateData(roll, logged) : logged) ?? '';
      }).join('\n');
      return { argv: ['rules', 'learn', '-', '--format', pick(roll, ['text', 'json'])], stdin };
    },
  },
  {
    name: 'odd command lines',
    share: 10,
    make(roll, here) {
      put(here, 'case.yaml', pick(roll, cases).replaceAll('../bikes/', 'bikes/'));
      const words = [...COMMAND_WORDS, '', 'not bucked at all', '\u001b[2J', 'x'.repeat(5000)];
      const argv = Array.from({ length: 1 + below(roll, 6) }, () => pick(roll, words));
      // A full check of the base pack takes seconds; it has tests of its own.
      const dear = argv.includes('check') && argv.includes('rules');
      return { argv: dear ? [...argv, '--only', 'lamp'] : argv, stdin: pick(roll, batch) };
    },
  },
];

export function target(roll: Dice): Target {
  let left = roll() * targets.reduce((sum, t) => sum + t.share, 0);
  return targets.find((t) => (left -= t.share) < 0) ?? targets[0]!;
}

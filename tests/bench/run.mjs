// `npm run bench`: timings as ratios and rates, in one run, on one core. Nothing is asserted; build first.
// Peer for scale: the same small network in bayesjs (enumeration), a general-purpose library.
import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const root = new URL('../..', import.meta.url).pathname;
const bin = join(root, 'bin/earshot.js');
const dist = (file) => import(join(root, 'dist', file));
const median = (list) => list.toSorted((a, b) => a - b)[Math.floor(list.length / 2)];
const say = (name, text) => console.log(`${name.padEnd(44)} ${text}`);

// Whole processes, their own CPU time (user and system), interleaved so that a drift of the machine hits all alike.
const folder = mkdtempSync(join(tmpdir(), 'earshot-bench-'));
const hook = join(folder, 'cpu.cjs');
writeFileSync(
  hook,
  "process.on('exit',()=>require('fs').writeFileSync(process.env.CPU_FILE,JSON.stringify(process.cpuUsage())))",
);
const onBike = join(root, 'examples/cases/fork-packs-down.yaml');
const noBike = join(root, 'examples/cases/chatter-to-the-hands.yaml');
const bike = join(root, 'examples/bikes/all-knobs.yaml');
/** arguments, and whether the home of the program is new at each start */
const commands = {
  'node -e 0': [['-e', '0']],
  'earshot --version': [[bin, '--version']],
  'diagnose, a case never told, no bike': [[bin, 'diagnose', noBike], true],
  'diagnose, the same case again, no bike': [[bin, 'diagnose', noBike]],
  'diagnose, on a bike never seen': [[bin, 'diagnose', onBike], true],
  'diagnose, the same case on the same bike': [[bin, 'diagnose', onBike]],
  'explain, on a bike': [[bin, 'explain', onBike]],
  'report, on a bike': [[bin, 'report', onBike]],
  'diagnose, a pack of one’s own, second start': [
    [bin, '--rules', join(root, 'examples/packs/night-ride'), 'diagnose', noBike],
  ],
  predict: [[bin, 'predict', '--bike', bike, '--change', 'front.rebound.low+2']],
};
const cpu = (argv, home) => {
  const file = join(folder, 'cpu.json');
  execFileSync(process.execPath, ['--require', hook, ...argv], {
    stdio: 'ignore',
    env: { ...process.env, CPU_FILE: file, EARSHOT_HOME: home },
  });
  const { user, system } = JSON.parse(readFileSync(file, 'utf8'));
  return (user + system) / 1000;
};
const times = Object.fromEntries(Object.keys(commands).map((name) => [name, []]));
for (let i = -1; i < 7; i++) {
  for (const [name, [argv, anew = false]] of Object.entries(commands)) {
    const took = cpu(argv, join(folder, anew ? `home-${Object.keys(commands).indexOf(name)}-${i}` : 'kept'));
    // The first start of each fills what is kept.
    if (i >= 0) times[name].push(took);
  }
}
const node = median(times['node -e 0']);
for (const [name, list] of Object.entries(times)) {
  say(name, `${median(list).toFixed(0)} ms CPU, ${(median(list) / node).toFixed(2)} × node`);
}

// The next question, as the interview asks for it after each answer.
const [{ buildModel }, { prepareBike }, { consult }, { readCase }, { vocabularyOf }] = await Promise.all([
  dist('diagnosis/model.js'),
  dist('advice/prepared-bike.js'),
  dist('casework/consult.js'),
  dist('casework/reading/read-case.js'),
  dist('casework/case.js'),
]);
const rules = JSON.parse(readFileSync(join(root, 'dist/rules/base.json'), 'utf8'));
const model = buildModel(rules);
const bench = prepareBike(model);
const lines = readFileSync(join(root, 'examples/batch.ndjson'), 'utf8').trim().split('\n');
const cases = lines.map((l) => readCase(JSON.parse(l), vocabularyOf(rules), 'x').value);
const timed = (work, rounds = 500) => {
  for (let i = 0; i < rounds; i++) work(i);
  const start = performance.now();
  for (let i = 0; i < rounds; i++) work(i);
  return (performance.now() - start) / rounds;
};
const next = { next: true, explain: 0, fit: false };
say(
  `next question, ${model.space.size} sets`,
  `${timed((i) => consult(model, bench, cases[i % 500], next)).toFixed(2)} ms`,
);

// Batches through the binary, start and end included.
const batch = (count) => {
  const file = join(folder, `${count}.ndjson`);
  writeFileSync(file, `${Array.from({ length: count }, (_, i) => lines[i % lines.length]).join('\n')}\n`);
  return file;
};
const through = (file, more) => {
  const start = performance.now();
  const { status } = spawnSync(process.execPath, [bin, 'diagnose', file, '--format', 'ndjson', ...more], {
    stdio: 'ignore',
  });
  if (status !== 0) throw new Error(`diagnose exited with ${status}`);
  return (performance.now() - start) / 1000;
};
const rate = (count, more) => (count / median([1, 2, 3].map(() => through(batch(count), more)))).toFixed(0);
say('cases a second, ranked causes and first', rate(20_000, []));
say('cases a second, --next --explain', rate(3_000, ['--next', '--explain']));

// Memory: the largest resident set of the process, as the system counts it.
const memory = (count) => {
  const run = `process.on('exit',()=>process.stderr.write(String(process.resourceUsage().maxRSS)));import(${JSON.stringify(join(root, 'dist/main.js'))}).then(m=>m.main())`;
  const { stderr } = spawnSync(
    process.execPath,
    ['-e', run, '_', 'diagnose', batch(count), '--format', 'ndjson'],
    { encoding: 'utf8', stdio: ['ignore', 'ignore', 'pipe'] },
  );
  return Number(stderr.trim().split('\n').at(-1)) / 1024;
};
const [small, large] = [memory(20_000), memory(200_000)];
say('largest memory, 20,000 → 200,000 lines', `${small.toFixed(0)} → ${large.toFixed(0)} MB`);

// The same small network in both: four causes, four yes/no questions, all answered.
const { inferences } = createRequire(import.meta.url)('bayesjs');
const links = [0.75, 0.5, 0.25, 0.6];
const net = {};
for (let c = 0; c < 4; c++)
  net[`c${c}`] = { id: `c${c}`, states: ['T', 'F'], parents: [], cpt: { T: 0.1, F: 0.9 } };
for (let q = 0; q < 4; q++) {
  const parents = [`c${q}`, `c${(q + 1) % 4}`];
  const cpt = ['T', 'F'].flatMap((a) =>
    ['T', 'F'].map((b) => {
      const no = 0.93 * (a === 'T' ? 1 - links[q] : 1) * (b === 'T' ? 0.75 : 1);
      return { when: { [parents[0]]: a, [parents[1]]: b }, [['then'][0]]: { T: 1 - no, F: no } };
    }),
  );
  net[`q${q}`] = { id: `q${q}`, states: ['T', 'F'], parents, cpt };
}
const given = { q0: 'T', q1: 'F', q2: 'T', q3: 'F' };
const peer = timed((i) => {
  for (let c = 0; c < 4; c++)
    inferences.enumeration.infer({ ...net }, { [`c${c}`]: i % 2 ? 'T' : 'F' }, { ...given });
}, 60);
const { update, priorOf } = await dist('diagnosis/belief.js');
const small4 = buildModel({
  ...rules,
  numbers: { ...rules.numbers, 'causes-at-once': 4, slip: { recall: 0, ride: 0, stand: 0 } },
  causes: [0, 1, 2, 3].map((i) => ({ ...rules.causes[0], id: `c${i}`, setting: i, prior: 0.1 })),
  questions: [0, 1, 2, 3].map((q) => ({
    ...rules.questions[0],
    id: `q${q}`,
    group: `q${q}`,
    answers: [
      { id: 'no', text: '' },
      { id: 'yes', text: '' },
    ],
    default: 0,
    several: 'cancel',
    base: [0, 0.07],
    links: [
      [q, 1, links[q]],
      [(q + 1) % 4, 1, 0.25],
    ],
  })),
});
const own = timed(
  () =>
    update(
      small4,
      priorOf(small4),
      [1, 0, 1, 0].map((answer, question) => ({ question, answer, sure: 1 })),
    ),
  20_000,
);
say(
  'small network, all posteriors: here / peer',
  `${(own * 1000).toFixed(1)} µs / ${(peer * 1000).toFixed(0)} µs, ${(peer / own).toFixed(0)} times`,
);

// The physical limit: the bytes one case touches at least (its posterior read and written a few times) against memory.
const bytes = model.space.size * 8 * 6;
const block = new Float64Array(8_000_000);
const copy = new Float64Array(8_000_000);
const seconds = timed(() => copy.set(block), 5) / 1000;
const bandwidth = (2 * block.byteLength) / seconds;
say(
  'memory bandwidth measured',
  `${(bandwidth / 1e9).toFixed(1)} GB/s: at most ${(bandwidth / bytes).toFixed(0)} cases a second at ${(bytes / 1024).toFixed(0)} kB a case`,
);
rmSync(folder, { recursive: true });

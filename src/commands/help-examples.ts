/** Examples at the end of each command's help; loaded only when help is asked for. */
import type { Command } from 'commander';

/** The words that lead to a command → command lines that work, each with what it is for. */
export const EXAMPLES: Readonly<Record<string, readonly (readonly [line: string, about: string])[]>> = {
  '': [
    ['earshot interview', 'a few questions, then the one thing to do first'],
    ['earshot bike new my-bike.yaml', 'record what the bike has and how it is set'],
    ['earshot next', 'what is open on this bike'],
    ['earshot diagnose case.yaml', 'the same from saved answers'],
  ],
  diagnose: [
    ['earshot diagnose case.yaml', 'the one thing to do first, and why'],
    ['earshot diagnose case.yaml --bike my-bike.yaml --full', 'everything, for this bike'],
    ['earshot diagnose cases.ndjson --format csv', 'a table, a line a case'],
    ['earshot diagnose - --format ndjson --next < cases.ndjson', 'a stream, with the next question'],
  ],
  explain: [
    ['earshot explain case.yaml', 'the evidence for and against the likeliest causes'],
    ['earshot explain case.yaml front.rebound.high.too-slow', 'the same for one cause'],
  ],
  interview: [
    ['earshot interview --bike my-bike.yaml', 'for a mechanic, with the bike at hand'],
    ['earshot interview --for rider', 'in plain words, with help'],
    ['earshot interview --resume', 'carry on where the last one stopped'],
  ],
  'bike new': [
    ['earshot bike new my-bike.yaml', 'asked at the prompt'],
    ['earshot bike new my-bike.yaml --id birch --kind enduro --rider-mass 84', 'start with what is known'],
  ],
  'bike show': [['earshot bike show my-bike.yaml', 'every current setting']],
  'bike check': [['earshot bike check my-bike.yaml', 'what is missing or cannot be right']],
  'bike set': [
    ['earshot bike set --bike my-bike.yaml front.rebound.low=5 rear.sag=29%', 'what was counted or read'],
    ['earshot bike set rider-mass=84', 'of the only bike with a log'],
  ],
  'bike start': [
    ['earshot bike start my-bike.yaml', 'starting points'],
    ['earshot bike start my-bike.yaml --write begun.yaml', 'and a sheet with them'],
  ],
  'log history': [
    ['earshot log --bike my-bike.yaml', 'everything that was done'],
    ['earshot log history --bike my-bike.yaml --last 5', 'the newest five'],
  ],
  'log change': [
    ['earshot log change front.rebound.low+2 --bike my-bike.yaml --reason "packs down"', 'two clicks out'],
  ],
  'log undo': [['earshot log undo --bike my-bike.yaml', 'undo the last change']],
  'log note': [['earshot log note fresh oil in the fork --bike my-bike.yaml', 'a note']],
  'log start': [['earshot log start --bike my-bike.yaml --reason "counted again"', 'a fresh start']],
  'log diff': [
    ['earshot log diff 2026-05-01 2026-05-20 --bike my-bike.yaml', 'between two days'],
    ['earshot log diff 2026-05-01 --bike my-bike.yaml', 'since that day'],
  ],
  'log export': [['earshot log export --bike my-bike.yaml --format csv', 'for a spreadsheet']],
  'trial plan': [
    ['earshot trial plan --bike my-bike.yaml --case case.yaml', 'the first change of a case'],
    ['earshot trial plan --bike my-bike.yaml --change front.rebound.low+2', 'a change of your own'],
  ],
  'trial record': [
    ['earshot trial record --bike my-bike.yaml', 'asked at the prompt'],
    ['earshot trial record --bike my-bike.yaml --run plus --rating grip=5 --time 61.2', 'one run by options'],
  ],
  'trial judge': [['earshot trial judge --bike my-bike.yaml', 'the verdict so far']],
  next: [['earshot next', 'the one thing to do next']],
  predict: [
    ['earshot predict --change front.rebound.low+2', 'on a default bike'],
    ['earshot predict --bike my-bike.yaml --sweep rear.rebound.low', 'a knob over its whole range'],
    ['earshot predict --bike my-bike.yaml --change rear.tyre-2psi --svg plots.svg', 'with plots in a file'],
  ],
  report: [['earshot report case.yaml --bike my-bike.yaml --out sheet.html', 'one page to print']],
  words: [
    ['earshot words "it packs down through the roots"', 'what that could mean'],
    ['earshot words --list sag', 'one word of the trade'],
  ],
  'rules check': [
    ['earshot rules check', 'the built-in rules'],
    ['earshot rules check --rules my-pack', 'with a pack of your own over them'],
  ],
  'rules test': [['earshot rules test --only berm', 'the checks with berm in their name or place']],
  'rules show': [
    ['earshot rules show questions', 'a list with all ids'],
    ['earshot rules show front.rebound.high.too-slow', 'one cause in words'],
  ],
  'rules audit': [['earshot rules audit', 'agree, disagree, or too small to say']],
  'rules simulate': [
    ['earshot rules simulate --riders 200 --seed 7', 'two hundred made-up riders'],
    ['earshot rules simulate --slips 0.2 --compare', 'careless riders, and other orders of questions'],
  ],
  'rules learn': [['earshot rules learn cases.ndjson --out learned', 'what your own cases would change']],
  'rules schema': [['earshot rules schema case > case.schema.json', 'for the editor']],
  completion: [
    ['source <(earshot completion bash)', 'in the file bash reads at its start'],
    ['source <(earshot completion zsh)', 'the same for zsh'],
    ['earshot completion fish | source', 'the same for fish'],
  ],
};

/** Adds the examples to the help of each command. */
export function addExamples(program: Command): void {
  const walk = (command: Command, path: string): void => {
    const list = EXAMPLES[path];
    if (list !== undefined)
      command.addHelpText(
        'after',
        `\nExamples:\n${list.map(([line, about]) => `  ${line}\n      ${about}`).join('\n')}`,
      );
    for (const sub of command.commands) walk(sub, path === '' ? sub.name() : `${path} ${sub.name()}`);
  };
  walk(program, '');
}

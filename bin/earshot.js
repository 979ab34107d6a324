#!/usr/bin/env node
// CommonJS, because that starts sooner. The program starts from one file with its compiled form beside it; where the
// build has not made one, from its modules.
'use strict';
const { existsSync, readFileSync } = require('node:fs');
const { join } = require('node:path');
const { Script } = require('node:vm');

const read = (path, encoding) => {
  try {
    return readFileSync(path, encoding);
  } catch {
    return undefined;
  }
};

/** The program's own options may stand before the command, each with a value. */
const FIRST_WORDS = 5;

/**
 * @param words of the line: for the commands that are used most there is a compiled form with no more than they need
 * @returns the program's exports, and the script they came from; undefined where there is no such file
 */
function load(file, words = []) {
  const source = read(file, 'latin1');
  if (source === undefined) return undefined;
  let own;
  for (const word of words.slice(0, FIRST_WORDS))
    if (/^[a-z-]+$/.test(word)) own ??= read(`${file}.${word}.cache`);
  // Compiled by another version of Node.js, the form is set aside by the engine, and the file compiled anew.
  const script = new Script(source, { filename: file, cachedData: own ?? read(`${file}.cache`) });
  return { program: requireFrom(script.runInThisContext()(require, file))('./main.js'), script };
}

/** Makes a piece of the program ready when it is first asked for, and with it those that it asks for. */
function requireFrom(pieces) {
  const ready = new Map();
  const demand = (name) => {
    const before = ready.get(name);
    if (before !== undefined) return before;
    if (pieces[name] === undefined) return require(name);
    const piece = { exports: undefined };
    pieces[name](piece, demand);
    ready.set(name, piece.exports);
    return piece.exports;
  };
  return demand;
}

function start() {
  const loaded = load(join(__dirname, '../dist/program.cjs'), process.argv.slice(2));
  if (loaded !== undefined) loaded.program.main();
  else if (existsSync(join(__dirname, '../dist/main.js')))
    import('../dist/main.js').then(({ main }) => main());
  else {
    process.stderr.write('earshot is not built yet. In its folder: npm ci, or npm run build.\n');
    process.exitCode = 2;
  }
}

// The build loads the program too, to compile it.
if (require.main === module) start();
else module.exports = { load };

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
 * @returns the program's exports, the script they came from, and what is left to do after the line; undefined where there is
 *   no such file
 */
function load(file, words = []) {
  const source = read(file, 'latin1');
  if (source === undefined) return undefined;
  const command = words
    .slice(0, FIRST_WORDS)
    .find((word) => /^[a-z-]+$/.test(word) && existsSync(`${file}.${word}.cache`));
  if (!source.startsWith(`// V8 ${process.versions.v8}\n`)) return loadElsewhere(source, file, command);
  const cachedData = read(command === undefined ? `${file}.cache` : `${file}.${command}.cache`);
  return loadWhole(source, file, cachedData);
}

/** Torn, or made for another processor, the compiled form is set aside by the engine, and the file compiled anew. */
function loadWhole(source, file, cachedData) {
  const script = new Script(source, { filename: file, cachedData });
  const pieces = script.runInThisContext()(require, file);
  return { program: requireFrom((name) => pieces[name])('./main.js'), script };
}

/**
 * Another engine than that of the build: for the commands that are used most its own compiled form is kept. To read all of
 * the file without one costs it more than a case, so for the rest it reads the pieces that are asked for.
 */
function loadElsewhere(source, file, command) {
  const find = requireFrom(pieceByPiece(source, file));
  if (command === undefined) return { program: find('./main.js') };
  const { keptCode, keepCode } = find('./kept-code.js');
  const kept = keptCode(file, command);
  const loaded = loadWhole(source, file, kept);
  if (kept !== undefined && loaded.script.cachedDataRejected === false) return loaded;
  return { ...loaded, afterwards: () => keepCode(file, command, loaded.script) };
}

/** Each piece as a script of its own, with what stands before all of them. */
function pieceByPiece(source, file) {
  const [head, ...pieces] = source.split('//# piece\n');
  const before = head.slice(0, head.lastIndexOf('return{'));
  const texts = new Map(
    pieces.slice(0, -1).map((text) => {
      const opens = text.indexOf('(');
      return [JSON.parse(text.slice(0, opens)), text.slice(opens, text.lastIndexOf(','))];
    }),
  );
  return (name) => {
    const text = texts.get(name);
    if (text === undefined) return undefined;
    const script = new Script(`${before}return(function${text})})`, { filename: file });
    return script.runInThisContext()(require, file);
  };
}

/** Makes a piece of the program ready when it is first asked for, and with it those that it asks for. */
function requireFrom(find) {
  const ready = new Map();
  const demand = (name) => {
    const before = ready.get(name);
    if (before !== undefined) return before;
    const make = find(name);
    if (make === undefined) return require(name);
    const piece = { exports: undefined };
    make(piece, demand);
    ready.set(name, piece.exports);
    return piece.exports;
  };
  return demand;
}

function start() {
  const loaded = load(join(__dirname, '../dist/program.cjs'), process.argv.slice(2));
  if (loaded !== undefined) loaded.program.main(loaded.afterwards);
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

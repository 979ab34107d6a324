#!/usr/bin/env node
// CommonJS, because that starts sooner. The program starts from two files, the second read only where it is needed, with their compiled forms beside them; where the
// build has not made one, from its modules.
'use strict';
const { existsSync, readFileSync } = require('node:fs');
const { dirname, join } = require('node:path');
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

/** Beside the program: the pieces that a start of the commands used most does not ask for where an earlier one told the case. */
const restOf = (file) => join(dirname(file), 'rest.cjs');

/**
 * @param words of the line: for the commands that are used most there is a compiled form with no more than they need
 * @returns the program's exports, the scripts they came from by file, and what is left to do after the line; undefined where
 *   they are not all there
 */
function load(file, words = []) {
  const source = read(file, 'latin1');
  if (source === undefined || !existsSync(restOf(file))) return undefined;
  const command = words
    .slice(0, FIRST_WORDS)
    .find((word) => /^[a-z-]+$/.test(word) && existsSync(`${file}.${word}.cache`));
  if (!source.startsWith(`// V8 ${process.versions.v8}\n`)) return loadElsewhere(source, file, command);
  return loadWhole(source, file, (path) =>
    read(command === undefined ? `${path}.cache` : `${path}.${command}.cache`),
  );
}

/**
 * Torn, or made for another processor, the compiled form is set aside by the engine, and the file compiled anew.
 * @param compiled the compiled form of a file
 */
function loadWhole(source, file, compiled) {
  const scripts = new Map();
  const run = (path, text) => {
    const script = new Script(text, { filename: path, cachedData: compiled(path) });
    scripts.set(path, script);
    return script.runInThisContext()(require, file);
  };
  const first = run(file, source);
  let rest;
  const find = (name) => {
    if (first[name] !== undefined || !name.startsWith('./')) return first[name];
    rest ??= run(restOf(file), read(restOf(file), 'latin1'));
    return rest[name];
  };
  return { program: requireFrom(find)('./main.js'), scripts };
}

/**
 * Another engine than that of the build: for the commands that are used most its own compiled form is kept. To read all of
 * the file without one costs it more than a case, so for the rest it reads the pieces that are asked for.
 */
function loadElsewhere(source, file, command) {
  const find = requireFrom(pieceByPiece(source, file));
  if (command === undefined) return { program: find('./main.js') };
  const { keptCode, keepCode } = find('./kept-code.js');
  const { program, scripts } = loadWhole(source, file, (path) => keptCode(path, command));
  const afterwards = async () => {
    for (const [path, script] of scripts)
      if (script.cachedDataRejected !== false) await keepCode(path, command, script);
  };
  return { program, afterwards };
}

/** Each piece as a script of its own, with what stands before all of them. */
function pieceByPiece(source, file) {
  const texts = piecesIn(source);
  let rest;
  return (name) => {
    if (!name.startsWith('./')) return undefined;
    const text = texts.get(name) ?? (rest ??= piecesIn(read(restOf(file), 'latin1'))).get(name);
    return new Script(text, { filename: file }).runInThisContext()(require, file);
  };
}

function piecesIn(source) {
  const [head, ...pieces] = source.split('//# piece\n');
  const before = head.slice(0, head.lastIndexOf('return{'));
  return new Map(
    pieces.slice(0, -1).map((text) => {
      const opens = text.indexOf('(');
      const piece = text.slice(opens, text.lastIndexOf(','));
      return [JSON.parse(text.slice(0, opens)), `${before}return(function${piece})})`];
    }),
  );
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

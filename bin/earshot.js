#!/usr/bin/env node
// CommonJS, because that starts sooner. The program starts from one file with its compiled form beside it; where the
// build has not made one, from its modules.
'use strict';
const { existsSync, readFileSync, writeFileSync } = require('node:fs');
const { dirname, join } = require('node:path');
const { Script } = require('node:vm');

const file = join(__dirname, '../dist/quick.cjs');
const read = (path, encoding) => {
  try {
    return readFileSync(path, encoding);
  } catch {
    return undefined;
  }
};

function quick(source) {
  // Compiled by another version of Node.js, the form is set aside by the engine, and the file compiled anew.
  const script = new Script(`(function (module, require, __filename, __dirname, elsewhere) {${source}\n})`, {
    filename: file,
    cachedData: read(`${file}.cache`),
  });
  const loaded = { exports: {} };
  const elsewhere = (path) => import(`../dist/${path}`);
  script.runInThisContext()(loaded, require, file, dirname(file), elsewhere);
  if (process.env.EARSHOT_KEEP_COMPILED)
    process.on('exit', () => writeFileSync(`${file}.cache`, script.createCachedData()));
  return loaded.exports;
}

const source = read(file, 'latin1');
if (source !== undefined) quick(source).main();
else if (existsSync(join(__dirname, '../dist/main.js'))) import('../dist/main.js').then(({ main }) => main());
else {
  process.stderr.write('earshot is not built yet. In its folder: npm ci, or npm run build.\n');
  process.exitCode = 2;
}

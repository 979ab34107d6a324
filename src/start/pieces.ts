/**
 * One script of all pieces of the program, a function a piece: what a line does not ask for is neither taken in nor made ready.
 * The bundler cuts the program so that what is asked for by the same calls of `import()` is one piece.
 */
import { relative } from 'node:path';
import { transform, type OutputFile } from 'esbuild';

/**
 * How the bundler has a piece begin: its helpers, which here stand once for all, then a getter for everything it hands out.
 * Getters are dear to make and to read, so a piece hands out plain values instead, at its end.
 */
const BEGINS =
  /^(.*?)var stdin_exports=\{\};__export\(stdin_exports,\{([^}]*)\}\);module\.exports=__toCommonJS\(stdin_exports\);/s;
const GETTER = /("[^"]+"|[\w$]+):\(\)=>([\w$]+)/g;

/** A line before every piece, and one after the last: by them `bin/earshot.js` finds the one that it wants alone. */
const PIECE = '//# piece\n';

/**
 * Its first line says whose engine can take the compiled forms beside it.
 *
 * @param folder of the pieces
 * @returns an expression: `(require, __filename) => { name: (module, require) => void }`
 * @throws Error where what a piece hands out may change after it is made: who asked for it would keep what was before
 */
export async function scriptOf(folder: string, pieces: readonly OutputFile[]): Promise<string> {
  let helpers = '';
  const functions: string[] = [];
  for (const { path, text } of pieces) {
    const name = `./${relative(folder, path).replaceAll('\\', '/')}`;
    if (/\b__esm\b/.test(text)) throw new Error(`${name} hands out what is made later.`);
    const { code } = await transform(text, {
      format: 'cjs',
      platform: 'node',
      target: 'node20',
      minifyWhitespace: true,
      minifySyntax: true,
      legalComments: 'none',
      // A compiled script cannot import by itself; it is handed `require`.
      supported: { 'dynamic-import': false },
    });
    const [begins, helping, getters] = BEGINS.exec(code) ?? [];
    if (begins === undefined) throw new Error(`${name} does not begin as a piece does.`);
    if (helping!.length > helpers.length) helpers = helping!;
    // Another piece is handed over as it is, without a copy that stands in for a module.
    const body = code
      .slice(begins.length)
      .replaceAll(/__toESM\(require\(("\.\/[\w.-]+")\)\)/g, 'require($1)');
    const values = getters!.replaceAll(GETTER, '$1:$2');
    functions.push(`${JSON.stringify(name)}(module,require){${body}\nmodule.exports={${values}}}`);
  }
  const here = "const __here=require('node:url').pathToFileURL(__filename).href;";
  const all = functions.map((one) => `${PIECE}${one},\n`).join('');
  return `// V8 ${process.versions.v8}\n(function(require,__filename){${here}${helpers}return{\n${all}${PIECE}}})`;
}

/**
 * One script of all pieces of the program, a function a piece: what a line does not ask for is neither taken in nor made ready.
 * The bundler cuts the program so that what is asked for by the same calls of `import()` is one piece.
 */
import { relative } from 'node:path';
import { transform, type OutputFile } from 'esbuild';

/** The bundler's helpers stand before this in every piece; here they stand once for all. */
const HELPERS_END = 'var stdin_exports={};';

/**
 * @param folder of the pieces
 * @returns an expression: `(require, __filename) => { name: (module, exports, require) => void }`
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
    const end = code.indexOf(HELPERS_END);
    if (end > helpers.length) helpers = code.slice(0, end);
    // Another piece is handed over as it is, without a copy that stands in for a module.
    const body = code
      .slice(Math.max(0, end))
      .replaceAll(/__toESM\(require\(("\.\/[\w.-]+")\)\)/g, 'require($1)');
    functions.push(`${JSON.stringify(name)}(module,exports,require){${body}}`);
  }
  const here = "const __here=require('node:url').pathToFileURL(__filename).href;";
  return `(function(require,__filename){${here}${helpers}return{\n${functions.join(',\n')}}})`;
}

/** Machine code that the build compiled, made ready. */

/** What `WebAssembly` is here; the types of the language do not have it. */
interface Engine {
  readonly Module: new (code: Uint8Array) => object;
  readonly Instance: new (module: object, imports: object) => { readonly exports: unknown };
}

/**
 * @param bytes as base64; empty where the compiler is not installed
 * @param lent functions of the engine that the code calls
 * @returns makes the code anew, each time with a memory of its own; undefined where there is none
 */
export function codeIn<T>(bytes: string, lent: object): (() => T) | undefined {
  const { WebAssembly: engine } = globalThis as unknown as { readonly WebAssembly?: Engine };
  if (bytes === '' || engine === undefined) return undefined;
  try {
    const module = new engine.Module(Buffer.from(bytes, 'base64'));
    return () => new engine.Instance(module, { engine: lent }).exports as T;
  } catch {
    // An engine may be told to take none; the loops in TypeScript do the same.
    return undefined;
  }
}

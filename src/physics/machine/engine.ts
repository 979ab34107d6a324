/** A program in machine code, made ready by whatever engine this is. */

/** What `WebAssembly` is here; the types of the language do not have it. */
interface Engine {
  readonly Module: new (code: Uint8Array) => object;
  readonly Instance: new (module: object, imports: object) => { readonly exports: unknown };
}

export interface Memory {
  readonly memory: { readonly buffer: ArrayBuffer; grow(pages: number): number };
}

/** Bytes; memory grows by so much. */
export const PAGE = 65_536;
/** The compiler keeps the first bytes for itself. */
export const FROM = 1024;

/** The engine's own functions that loops call. */
const LENT = { cosine: Math.cos, sine: Math.sin, cubeRoot: Math.cbrt, power: Math.pow, log2: Math.log2 };

/**
 * @param bytes of the program as base64; none where its compiler was not installed
 * @returns makes one with a memory of its own; undefined where there is no such program, or the engine takes none
 */
export function programOf<Code>(bytes: string): (() => Code & Memory) | undefined {
  const { WebAssembly: engine } = globalThis as unknown as { readonly WebAssembly?: Engine };
  if (bytes === '' || engine === undefined) return undefined;
  try {
    const module = new engine.Module(Buffer.from(bytes, 'base64'));
    return () => new engine.Instance(module, { numbers: LENT }).exports as Code & Memory;
  } catch {
    // An engine may be told to take none.
    return undefined;
  }
}

/** What is made when it is first asked for, and once. */

export function once<T>(make: () => T): () => T {
  let made: { readonly of: T } | undefined;
  return () => (made ??= { of: make() }).of;
}

/** What is made when it is first asked for, and once. */
export function once<T>(make: () => T): () => T {
  let made: { readonly of: T } | undefined;
  return () => (made ??= { of: make() }).of;
}

/** @returns for each question the same object every time, and to no other question */
export function marks(): (question: number) => object {
  const all = new Map<number, object>();
  return (question) => {
    let mark = all.get(question);
    if (mark === undefined) all.set(question, (mark = {}));
    return mark;
  };
}

/** Lines of a byte stream, with a bound on each, so that one endless line cannot fill the memory. */

export interface Line {
  readonly text?: string;
  /** why the line could not be given */
  readonly fault?: string;
}

const NEWLINE = 10;

/** @param most bytes of the longest line; a longer one is skipped to its end and given as a fault */
export async function* limitedLines(source: AsyncIterable<Uint8Array>, most: number): AsyncGenerator<Line> {
  const decoder = new TextDecoder('utf-8', { fatal: true });
  let parts: Uint8Array[] = [];
  let size = 0;
  let skipped = 0;
  const finish = (): Line => {
    const long = skipped;
    const bytes = parts.length === 1 ? parts[0]! : Buffer.concat(parts);
    parts = [];
    size = 0;
    skipped = 0;
    if (long > 0)
      return {
        fault: `this line has ${(long / 1e6).toFixed(1)} MB; a case has at most ${(most / 1e6).toFixed(0)} MB. Check what wrote it.`,
      };
    try {
      return { text: decoder.decode(bytes) };
    } catch {
      return { fault: 'this line is not UTF-8 text. Save it as UTF-8.' };
    }
  };
  const take = (bytes: Uint8Array): void => {
    if (bytes.length === 0) return;
    if (skipped > 0 || size + bytes.length > most) {
      skipped += size + bytes.length;
      parts = [];
      size = 0;
      return;
    }
    parts.push(bytes);
    size += bytes.length;
  };
  for await (const chunk of source) {
    let from = 0;
    for (let at = chunk.indexOf(NEWLINE); at >= 0; at = chunk.indexOf(NEWLINE, from)) {
      take(chunk.subarray(from, at));
      yield finish();
      from = at + 1;
    }
    take(chunk.subarray(from));
  }
  if (size > 0 || skipped > 0) yield finish();
}

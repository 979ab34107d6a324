/** Lines of a byte stream, with a bound on each, so that one endless line cannot fill the memory. */
import { isUtf8 } from 'node:buffer';

/** The text of a line, or why it could not be given. */
export type Line = string | { readonly fault: string };

const NEWLINE = 10;
const BYTE_ORDER_MARK = '\uFEFF';

/**
 * The lines that each piece of the stream completes, together, because a stop between two lines costs more than a line.
 * @param most bytes of the longest line; a longer one is skipped to its end and given as a fault
 */
export async function* limitedLines(source: AsyncIterable<Uint8Array>, most: number): AsyncGenerator<Line[]> {
  /** the line begun in pieces before this one */
  let parts: Uint8Array[] = [];
  let size = 0;
  let skipped = 0;
  const finish = (): Line => {
    const bytes = parts.length === 1 ? parts[0]! : Buffer.concat(parts);
    const length = skipped > 0 ? skipped : size;
    parts = [];
    size = 0;
    skipped = 0;
    return length > most ? tooLong(length, most) : decode(bytes);
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
    const end = chunk.lastIndexOf(NEWLINE);
    if (end >= 0) {
      let from = 0;
      const out: Line[] = [];
      if (size > 0 || skipped > 0) {
        from = chunk.indexOf(NEWLINE);
        take(chunk.subarray(0, from));
        out.push(finish());
        from++;
      }
      if (from <= end) for (const line of split(chunk.subarray(from, end), most)) out.push(line);
      yield out;
    }
    take(chunk.subarray(end + 1));
  }
  if (size > 0 || skipped > 0) yield [finish()];
}

/** Whole lines, all at once where that is safe. */
function split(bytes: Uint8Array, most: number): Line[] {
  if (bytes.length <= most && isUtf8(bytes)) {
    const lines: Line[] = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.length).toString().split('\n');
    for (let i = 0; i < lines.length; i++) lines[i] = unmarked(lines[i] as string);
    return lines;
  }
  const out: Line[] = [];
  for (let from = 0; from <= bytes.length;) {
    const next = bytes.indexOf(NEWLINE, from);
    const end = next < 0 ? bytes.length : next;
    out.push(end - from > most ? tooLong(end - from, most) : decode(bytes.subarray(from, end)));
    from = end + 1;
  }
  return out;
}

function decode(bytes: Uint8Array): Line {
  if (!isUtf8(bytes)) return { fault: 'this line is not UTF-8 text. Save it as UTF-8.' };
  return unmarked(Buffer.from(bytes.buffer, bytes.byteOffset, bytes.length).toString());
}

function unmarked(text: string): string {
  return text.startsWith(BYTE_ORDER_MARK) ? text.slice(1) : text;
}

function tooLong(length: number, most: number): Line {
  return {
    fault: `this line has ${(length / 1e6).toFixed(1)} MB; a case has at most ${(most / 1e6).toFixed(0)} MB. Check what wrote it.`,
  };
}

/**
 * Data with long arrays of numbers, as one text that is the same for the same bits. The test kit compares such arrays element
 * by element, which costs more than working most of them out.
 */
import { createHash } from 'node:crypto';

export function bitsOf(value: unknown): string {
  if (ArrayBuffer.isView(value)) {
    const bytes = new Uint8Array(value.buffer, value.byteOffset, value.byteLength);
    return `${value.constructor.name} ${createHash('sha256').update(bytes).digest('hex')}`;
  }
  if (typeof value !== 'object' || value === null) return JSON.stringify(value) ?? String(value);
  return `{${Object.entries(value)
    .map(([key, one]) => `${JSON.stringify(key)}: ${bitsOf(one)}`)
    .sort()
    .join('; ')}}`;
}

/** Hashing, loaded when first used: a start with untouched rules needs none, and it is dear to load. */
import type { Hash } from 'node:crypto';

export function sha256(): Hash {
  return process.getBuiltinModule('node:crypto').createHash('sha256');
}

/** Hashing, loaded when first used: a start with untouched rules needs none, and it is dear to load. */
import type { Hash } from 'node:crypto';

export function cryptography(): typeof import('node:crypto') {
  return process.getBuiltinModule('node:crypto');
}

export function sha256(): Hash {
  return cryptography().createHash('sha256');
}

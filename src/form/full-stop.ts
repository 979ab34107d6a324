/** Sentences that stand alone, and the same words inside another one. */

/** With a full stop, where it does not end as a sentence already. */
export function withStop(text: string): string {
  return /[.?!]$/.test(text) ? text : `${text}.`;
}

export function withoutStop(text: string): string {
  return text.replace(/\.$/, '');
}

/** A number stays with what it counts: no line of a page ends between the two. */
export function glued(text: string): string {
  return text
    .replace(/(?<=\d) (?=(?:%|mm|psi|bar|N|m\/s)(?!\p{L}))/gu, '\u00A0')
    .replace(/(?<=\d) of (?=\d)/g, '\u00A0of\u00A0');
}

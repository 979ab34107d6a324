/** A list that is cut to its room, and still knows how much was left out. */
export interface CutList {
  readonly lines: readonly string[];
  /** how many more there are */
  readonly more: number;
}

export function cutList({ lines, more }: CutList, most: number): CutList {
  return { lines: lines.slice(0, most), more: more + Math.max(0, lines.length - most) };
}

/** Its lines, and one that says how many were left out. */
export function linesOf({ lines, more }: CutList): readonly string[] {
  return more > 0 ? [...lines, `And ${more} more in the case.`] : lines;
}

/** Numbers as a result holds them. */

export function signed(x: number): string {
  const rounded = round(x, 2);
  return rounded < 0 ? `${rounded}` : `+${rounded}`;
}

/** Rounding happens here and nowhere below, so that the same answers print the same bytes. */
export function round(x: number, digits = 4): number {
  const scale = 10 ** digits;
  const rounded = Math.round(x * scale) / scale;
  return rounded === 0 ? 0 : rounded;
}

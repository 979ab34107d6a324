/** One weight of evidence as a bar to the right (for) or to the left (against) of a middle line. */
import { html, type Markup } from '../pit-sheet/markup.ts';

const WIDTH = 200;
const HEIGHT = 12;

/** A scale that the largest weight of a list just fits into; never so fine that a feather looks like a stone. */
export function barReach(decibans: readonly number[]): number {
  return Math.max(6, ...decibans.map((db) => Math.abs(db)));
}

/** The words beside it say the same, so it is hidden from a screen reader. @param reach decibans at each edge */
export function weightBar(decibans: number, reach: number): Markup {
  const middle = WIDTH / 2;
  const length = Math.round((Math.min(Math.abs(decibans), reach) / reach) * (middle - 1) * 10) / 10;
  const from = decibans < 0 ? middle - length : middle;
  return html`<svg class="bar" viewBox="0 0 ${WIDTH} ${HEIGHT}" aria-hidden="true">
    <path class="track" d="M0 ${HEIGHT / 2}H${WIDTH}" />
    <rect
      class="${decibans < 0 ? 'against' : 'for'}"
      x="${from}"
      y="2"
      width="${length}"
      height="${HEIGHT - 4}"
    />
    <path class="middle" d="M${middle} 0V${HEIGHT}" />
  </svg>`;
}

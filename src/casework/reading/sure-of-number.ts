/** How sure an answer is that was made of a number: what is usual is no target, and toward its edge a number says little. */
import { awayIn, type Target } from '../../bike/gauge/gauge.ts';
import { SURE, type Sure } from '../case.ts';

/**
 * @param target what it was held against; absent: somebody told the figure
 * @returns sure on the usual figure and well beyond the room around it, a guess at its edge, fairly sure between
 */
export function sureOfNumber(value: number, target: Target | undefined): Sure {
  const away = target === undefined ? 0 : awayIn(value, target);
  if (away === 0 || away > OUT.well) return 'sure';
  return away <= OUT.little || away > OUT.edge ? 'fairly' : 'guess';
}

/** In rooms around the figure, 1 being the edge of what counts as on target; judgement. */
const OUT = { little: 0.5, edge: 1.25, well: 1.5 };

/** Of two the one that is less sure. */
export function lessSure(one: Sure, other: Sure): Sure {
  return SURE[Math.max(SURE.indexOf(one), SURE.indexOf(other))]!;
}

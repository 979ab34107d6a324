/** Two steps that may be turns of one and the same knob. */
import type { PreparedBike } from '../../advice/prepared-bike.ts';
import { CIRCUITS, DAMPER, partnerOf } from '../../bike/circuits.ts';
import { ENDS } from '../../bike/sheet.ts';

/**
 * Whether nobody told what knobs the end has, and the other circuit of the pair is turned the same way ahead of it: where
 * there is one knob for both, this is that step once more, and whoever looks for a second knob looks in vain.
 * @param adjustment its index in the rules
 * @param ahead those listed before it
 * @param turned settings that somebody turned by themselves: then there is a knob for each
 */
export function mayBeOneKnob(
  { possible }: Pick<PreparedBike, 'possible'>,
  adjustment: number,
  ahead: readonly { readonly adjustment: number }[],
  turned: readonly string[] = [],
): boolean {
  const looked = possible[adjustment]!;
  if (!looked.can || looked.look !== true || looked.step === undefined) return false;
  const { by, setting } = looked.step;
  const other = otherOf(setting);
  if (turned.some((one) => one === setting || one === other)) return false;
  return ahead.some((one) => {
    const there = possible[one.adjustment]!;
    return (
      there.can &&
      there.look === true &&
      there.step !== undefined &&
      there.step.setting === other &&
      Math.sign(there.step.by) === Math.sign(by)
    );
  });
}

/** The other circuit of a pair that one knob often turns both of; undefined: it is none. */
function otherOf(setting: string): string | undefined {
  for (const end of ENDS)
    for (const circuit of CIRCUITS) {
      const partner = partnerOf(circuit);
      if (setting === `${end}.${circuit}` && (DAMPER[circuit].alone ?? DAMPER[partner].alone) !== undefined)
        return `${end}.${partner}`;
    }
  return undefined;
}

/**
 * What was tried before the interview, as evidence: a ridden trial that nobody planned, remembered. The same model as for a
 * trial, trusted less (`numbers.tried.doubt`), and done before the answers, which speak of the bike as it is now.
 */
import { findSet, membersOf } from './hypotheses.ts';
import type { Model } from './model.ts';
import { reach, type ChangeEffect, type Outcome, type TrialTable } from './results.ts';

/**
 * @param outcome undefined where nobody is sure: no evidence, but what stayed on the bike still changed it
 * @param kept chance that the change is still on the bike, 0..1
 */
export function tabulateTried(
  model: Model,
  effect: ChangeEffect,
  outcome: Outcome | undefined,
  kept: number,
): TrialTable {
  const { space, rules } = model;
  const { results, tried } = rules.numbers;
  const { helped, nothing, harmed } = results;
  const told = (row: typeof helped): number =>
    outcome === undefined ? 1 : (1 - tried.doubt) * row[outcome] + tried.doubt / 3;
  const likelihood = new Float64Array(space.size);
  const from: number[] = [];
  const to: number[] = [];
  const share: number[] = [];
  const main = strongest(effect.brings);
  for (let h = 0; h < space.size; h++) {
    const set = membersOf(space, h);
    const { cure, spoil } = reach(model, effect, set);
    const help = cure * (1 - spoil);
    const harm = spoil * (1 - cure);
    likelihood[h] = help * told(helped) + harm * told(harmed) + (1 - help - harm) * told(nothing);
    if (kept === 0) continue;
    let left = 1;
    const move = (target: number, p: number): void => {
      if (target < 0 || p === 0) return;
      from.push(h);
      to.push(target);
      share.push(kept * p);
      left -= kept * p;
    };
    const cured = set.filter((c) => effect.cures[c]! > 0);
    for (let pattern = 1; pattern < 1 << cured.length; pattern++) {
      let p = 1;
      cured.forEach((c, bit) => {
        const gone = effect.cures[c]! * Math.min(effect.lasts ?? 1, tried.lasts);
        p *= (pattern >> bit) & 1 ? gone : 1 - gone;
      });
      move(
        findSet(
          space,
          set.filter((c) => !cured.some((x, bit) => x === c && (pattern >> bit) & 1)),
        ),
        p,
      );
    }
    // A setting that was right may be off now, the likelier the more the report says so.
    if (
      main >= 0 &&
      cured.length === 0 &&
      set.every((c) => rules.causes[c]!.setting !== rules.causes[main]!.setting)
    ) {
      const spoilt = effect.brings[main]! * tried.upsets;
      move(
        findSet(
          space,
          [...set, main].sort((a, b) => a - b),
        ),
        (spoilt * told(harmed)) / likelihood[h]!,
      );
    }
    if (left < 1) {
      from.push(h);
      to.push(h);
      share.push(left);
    }
  }
  return {
    likelihood,
    from: Int32Array.from(from),
    to: Int32Array.from(to),
    share: Float64Array.from(share),
  };
}

function strongest(brings: Float64Array): number {
  let best = -1;
  for (let c = 0; c < brings.length; c++) if (brings[c]! > (best < 0 ? 0 : brings[best]!)) best = c;
  return best;
}

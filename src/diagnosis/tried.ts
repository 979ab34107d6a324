/**
 * What was tried before the interview, as evidence: a ridden trial that nobody planned, remembered. The same model as for a
 * trial, trusted less (`numbers.tried.doubt`), and done before the answers, which speak of the bike as it is now.
 */
import { findSet, membersOf } from './hypotheses.ts';
import type { Model } from './model.ts';
import { reach, tableOf, type ChangeEffect, type Outcome, type TrialTable } from './results.ts';

/** What was said of a change: of the bike as a whole, or of one thing only. */
export interface Report {
  /** undefined where nobody is sure: no evidence, but what stayed on the bike still changed it */
  readonly outcome: Outcome | undefined;
  /** share 0..1 a cause: how far it shows in the thing the report speaks of; absent where it speaks of all */
  readonly shows?: Float64Array;
}

/**
 * @param reports of one change; one that speaks of one thing only says nothing of causes that do not show in it
 * @param kept chance that the change is still on the bike, 0..1
 */
export function tabulateTried(
  model: Model,
  effect: ChangeEffect,
  reports: readonly Report[],
  kept: number,
): TrialTable {
  const { space, rules } = model;
  const { results, tried } = rules.numbers;
  const heard = reports.map(({ outcome, shows }) => {
    const told = (row: typeof results.helped): number =>
      outcome === undefined ? 1 : (1 - tried.doubt) * row[outcome] + tried.doubt / 3;
    return {
      felt: shows === undefined ? effect : within(effect, shows),
      shows,
      helped: told(results.helped),
      nothing: told(results.nothing),
      harmed: told(results.harmed),
    };
  });
  const likelihood = new Float64Array(space.size);
  const from: number[] = [];
  const to: number[] = [];
  const share: number[] = [];
  const main = strongest(effect.brings);
  const saysSpoilt = heard.reduce((p, { shows, harmed, nothing }) => {
    const share = main < 0 ? 0 : (shows?.[main] ?? 1);
    return p * (share * harmed + (1 - share) * nothing);
  }, 1);
  for (let h = 0; h < space.size; h++) {
    const set = membersOf(space, h);
    likelihood[h] = 1;
    for (const { felt, helped, nothing, harmed } of heard) {
      const { cure, spoil } = reach(model, felt, set);
      const help = cure * (1 - spoil);
      const harm = spoil * (1 - cure);
      likelihood[h]! *= help * helped + harm * harmed + (1 - help - harm) * nothing;
    }
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
        (spoilt * saysSpoilt) / likelihood[h]!,
      );
    }
    if (left < 1) {
      from.push(h);
      to.push(h);
      share.push(left);
    }
  }
  return tableOf(likelihood, from, to, share);
}

/** The part of an effect that shows in one thing. */
function within({ cures, brings, lasts }: ChangeEffect, shows: Float64Array): ChangeEffect {
  const part = { cures: cures.map((x, c) => x * shows[c]!), brings: brings.map((x, c) => x * shows[c]!) };
  return lasts === undefined ? part : { ...part, lasts };
}

function strongest(brings: Float64Array): number {
  let best = -1;
  for (let c = 0; c < brings.length; c++) if (brings[c]! > (best < 0 ? 0 : brings[best]!)) best = c;
  return best;
}

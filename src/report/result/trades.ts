/** What was tried and was a trade, in words: what it was good and bad for, and the smaller step that lies between. */
import type { PreparedBike } from '../../advice/prepared-bike.ts';
import type { Change } from '../../bike/change.ts';
import { halfStep } from '../../bike/half-step.ts';
import type { Consultation } from '../../casework/consult.ts';
import { feltWords } from '../../casework/tried/felt-at.ts';
import { tradesOf, type Trade } from '../../casework/tried/trades.ts';
import { capital, decapital, withStop } from '../../form/text.ts';
import { reasonIn } from '../../rulebase/reasons.ts';
import { changeWords, wayWords } from '../bike/change-words.ts';

/** A sentence or two each; none below a stop, where nothing is turned, nor of a step that the rules refuse. */
export function tradesIn(bench: PreparedBike, c: Consultation): string[] {
  if (c.advice.verdict === 'stop') return [];
  const refused = c.advice.refused.flatMap(
    ({ adjustment }) => bench.rules.adjustments[adjustment]!.change ?? [],
  );
  const isRefused = ({ better: { changes } }: Trade): boolean =>
    changes.some((one) =>
      refused.some(
        ({ setting, by, unit }) =>
          setting === one.setting && unit === one.unit && Math.sign(by) === Math.sign(one.by),
      ),
    );
  return tradesOf(c.tried.effects)
    .filter((trade) => !isRefused(trade))
    .map((trade) => inWords(bench, trade));
}

function inWords({ rules, sheet }: PreparedBike, { better, worse }: Trade): string {
  const { changes, change, tried } = better;
  const isCounted = tried.by !== undefined || tried.change !== undefined;
  const deed = changes.length === 0 ? change : { changes };
  const named = (names: readonly string[] | undefined, otherwise: string): string =>
    decapital(feltWords(rules, names ?? []) ?? otherwise);
  const half = isCounted ? halfOf(changes) : undefined;
  const values = {
    change: isCounted ? changeWords(deed, sheet, rules) : wayWords(deed, rules),
    better: named(better.tried.for, 'one thing'),
    worse: named(worse.tried.for, 'another'),
    half: half === undefined ? '' : changeWords({ changes: [half] }, sheet),
  };
  const key = !isCounted ? 'trade-uncounted' : half === undefined ? 'trade-least' : 'trade';
  return withStop(capital(reasonIn(rules.reasons, key, values)));
}

/** Half of it; undefined where that is nothing, or several things were changed. */
function halfOf([only, ...others]: readonly Change[]): Change | undefined {
  return only === undefined || others.length > 0 ? undefined : halfStep(only);
}

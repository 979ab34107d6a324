/** Which open question tells most about what is behind one complaint, whatever it would tell of the rest of the bike. */
import { behindSigns } from '../../advice/behind-signs.ts';
import { answerProbabilities } from '../../diagnosis/answer-model.ts';
import type { Belief, Evidence } from '../../diagnosis/belief.ts';
import { entropy, type Gain } from '../../diagnosis/inquiry.ts';
import type { Model } from '../../diagnosis/model.ts';

/**
 * The complaint came of one of the causes its signs show, or by itself. I(A; which of them), in bits, over the minutes it takes.
 *
 * @param signs of the complaint, as they were answered
 * @param open the questions that may be asked now
 * @returns its index; undefined where none tells enough
 */
export function tellsBehind(
  model: Model,
  belief: Belief,
  signs: readonly Pick<Evidence, 'question' | 'answer'>[],
  open: readonly Gain[],
): number | undefined {
  const { rules } = model;
  const { 'least-bits': least, 'minutes-floor': floor, 'least-behind': hardly } = rules.numbers.asking;
  const { weights, all } = behindSigns(model, belief, signs);
  const byItself = signs.reduce((sum, { question, answer }) => {
    const { either, base } = rules.questions[question]!;
    return sum + (either === undefined ? base : rules.questions[either[0]!]!.base)[answer]!;
  }, 0);
  const total = all + byItself;
  const behind = [
    { causes: [] as number[], share: byItself / total },
    ...Array.from(weights, (weight, cause) => ({ causes: [cause], share: weight / total })).filter(
      ({ share }) => share >= hardly,
    ),
  ];
  const kept = behind.reduce((sum, { share }) => sum + share, 0);
  // What is felt at one end is not told apart by the other.
  const ends = new Set(signs.flatMap(({ question }) => rules.questions[question]!.end ?? []));
  let best: number | undefined;
  let most = 0;
  for (const { question: index } of open) {
    const question = rules.questions[index]!;
    if (question.end !== undefined && ends.size > 0 && !ends.has(question.end)) continue;
    const shown = new Set(question.links.map(([cause]) => cause));
    if (!behind.some(({ causes: [cause] }) => cause !== undefined && shown.has(cause))) continue;
    const mean = new Float64Array(question.answers.length);
    const chancesWith = (causes: readonly number[]): Float64Array =>
      answerProbabilities(question, causes, new Float64Array(mean.length));
    // What the question does not look at answers it as nothing does: most causes, so it is worked out once.
    const usual = chancesWith([]);
    let bits = 0;
    for (const { causes, share } of behind) {
      const chances = causes.some((cause) => shown.has(cause)) ? chancesWith(causes) : usual;
      bits -= (share / kept) * entropy(chances);
      for (let a = 0; a < mean.length; a++) mean[a]! += (share / kept) * chances[a]!;
    }
    bits += entropy(mean);
    const worth = Math.round((bits / (question.minutes + floor)) * 1e9);
    if (bits >= least && worth > most) [best, most] = [index, worth];
  }
  return best;
}

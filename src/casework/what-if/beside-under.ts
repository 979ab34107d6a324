/**
 * What stands beside the causes with one strength moved: as `besideOf` has it of a model with that strength, from what each
 * answer says under the model's own. Hundreds of strengths are tried, and each touches few of the answers.
 */
import type { Evidence } from '../../diagnosis/belief.ts';
import {
  chanceTold,
  followedIn,
  followStory,
  storiesAtFirst,
  storyCauses,
  storyPart,
  timesTold,
  type Followed,
  type HowTold,
} from '../../diagnosis/impression.ts';
import type { Model } from '../../diagnosis/model.ts';
import { askedAt, chancesOfNone, chancesWithout, logEvidenceOfNone } from '../../diagnosis/none.ts';
import type { Question } from '../../rulebase/compiled.ts';
import type { Movable, Spot, Under } from './moved.ts';

/** ln P(answers) under the model's own strengths, and with one of them moved. */
export interface LogUnder {
  readonly own: number;
  readonly moved: (strength: Movable) => Under<number>;
}

/** ln P(answers of a round | none of these). */
export function noneUnder(model: Model, evidence: readonly Evidence[]): LogUnder {
  const { numbers } = model.rules;
  const own = logEvidenceOfNone(model, evidence);
  return {
    own,
    moved: ({ spots }) => {
      // Links have no part in it.
      if (spots.every(({ cause }) => cause >= 0)) return () => own;
      return (_, questions) => {
        const now = questions();
        return logEvidenceOfNone(model, evidence, (index) => {
          const question = now.get(askedAt(model.rules, index));
          return question === undefined ? chancesOfNone(model, index) : chancesWithout(question, numbers);
        });
      };
    },
  };
}

/** One answer, and how it is told in each story. */
interface Column {
  readonly told: Evidence;
  /** the question that stands for it, by index */
  readonly asked: number;
  readonly question: Question;
  readonly how: HowTold;
  /** its chance in each story */
  readonly chances: Float64Array;
  /** causes that it points to */
  readonly links: ReadonlySet<number>;
}

/** ln P(answers of all rounds | one impression throughout). */
export function impressionUnder(model: Model, evidence: readonly Evidence[]): LogUnder {
  const { questions, numbers, causes } = model.rules;
  const { of, bound } = numbers['one-impression'];
  const broad = model.questionIndex.get(of);
  if (broad === undefined) return { own: -Infinity, moved: () => () => -Infinity };
  const leading = questions[broad]!;
  const stories = leading.answers.length;
  const n = causes.length;
  const parts = storyCauses(leading, n);
  const all = evidence.map((told): Column => {
    const asked = askedAt(model.rules, told.question);
    const question = questions[asked]!;
    const how = {
      ...followedIn(model, leading, told.question),
      chances: chancesOfNone(model, told.question),
      bound,
    };
    const chances = new Float64Array(stories).fill(1);
    timesTold(chances, told, how);
    return { told, asked, question, how, chances, links: new Set(question.links.map(([cause]) => cause)) };
  });
  const first = storiesAtFirst(leading);
  const usual = first.slice();
  for (const { chances } of all) times(usual, chances);
  const sum = sumOf(usual);
  const own = Math.log(sum);
  const other: Followed = { sign: new Int16Array(stories), often: new Float64Array(stories) };

  /** The broad question has one link moved: of all stories only that of its sign is told otherwise. */
  const inOneStory = ({ cause, answer: story }: Spot): Under<number> => {
    const place = story * n + cause;
    const before = parts[place]!;
    const touched: Column[] = [];
    let rest = first[story]!;
    for (const column of all) {
      if (column.question.how !== 'stand' && column.links.has(cause)) touched.push(column);
      else rest *= column.chances[story]!;
    }
    return (to) => {
      parts[place] = storyPart(to);
      let p = rest;
      for (let i = 0; i < touched.length; i++) {
        const { told, question, how, chances } = touched[i]!;
        if (question === leading) {
          other.sign[story] = story === leading.default ? -1 : story;
          other.often[story] = strongest(leading, story, { cause, to });
        } else if (parts[place] !== before) followStory(leading, story, { parts, asked: question }, other);
        else {
          p *= chances[story]!;
          continue;
        }
        p *= chanceTold(story, told, { ...other, chances: how.chances, bound });
      }
      parts[place] = before;
      return Math.log(sum - usual[story]! + p);
    };
  };
  /** Whether any story is told otherwise with another strength there: of a question that is not the broad one. */
  const isTouched = ({ question, cause }: Spot): boolean => {
    if (cause < 0) return true;
    if (questions[question]!.how === 'stand') return false;
    for (let s = 0; s < stories; s++) if (parts[s * n + cause]! > 0) return true;
    return false;
  };
  const moved = ({ spots }: Movable): Under<number> => {
    const link = spots.find(({ question, cause }) => question === broad && cause >= 0);
    if (link !== undefined) return inOneStory(link);
    const causeAt = new Map(spots.filter(isTouched).map(({ question, cause }) => [question, cause]));
    const touched = all.filter(({ asked }) => causeAt.has(asked));
    if (touched.length === 0) return () => own;
    const rest = first.slice();
    for (const column of all) if (!causeAt.has(column.asked)) times(rest, column.chances);
    return (_, now) => {
      const p = rest.slice();
      for (const { told, asked, how } of touched) {
        const question = now().get(asked)!;
        const cause = causeAt.get(asked)!;
        if (cause < 0) timesTold(p, told, { ...how, chances: chancesWithout(question, numbers) });
        else {
          other.sign.set(how.sign);
          other.often.set(how.often);
          for (let s = 0; s < stories; s++)
            if (parts[s * n + cause]! > 0) followStory(leading, s, { parts, asked: question }, other);
          timesTold(p, told, { ...other, chances: how.chances, bound });
        }
      }
      return Math.log(sumOf(p));
    };
  };
  return { own, moved };
}

/** The strongest link to a sign, with that of one cause moved. */
function strongest(
  { links }: Question,
  sign: number,
  { cause, to }: { readonly cause: number; readonly to: number },
): number {
  let most = 0;
  for (let i = 0; i < links.length; i++) {
    const link = links[i]!;
    if (link[1] === sign) most = Math.max(most, link[0] === cause ? to : link[2]);
  }
  return most;
}

function times(p: Float64Array, by: Float64Array): void {
  for (let s = 0; s < p.length; s++) p[s]! *= by[s]!;
}

function sumOf(p: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < p.length; i++) sum += p[i]!;
  return sum;
}

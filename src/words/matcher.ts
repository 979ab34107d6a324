/** A rider's own words → what they could mean. Nothing here is an answer until somebody confirms it. */
import { withoutEnd, type CompiledRules } from '../rulebase/compiled.ts';
import { acrossSentences, wholeSentences } from './across.ts';
import { alignments, type Find } from './align.ts';
import type { CompiledWords } from './compiled-words.ts';
import { keptEnd } from './end-kept.ts';
import { END_ANSWERS, endOf, leftOver, mentionsIn, type Carried, type Ends } from './ends.ts';
import { withClashes } from './clash.ts';
import { keepBest, tellsEnd } from './choice/keep-best.ts';
import { withoutRivals, type Said, besides } from './choice/rivals.ts';
import { agreedOn, mixesTwo } from './choice/loose.ts';
import { denied } from './denial/negation.ts';
import { onePerQuestion, offeredOnce, withoutRepeats } from './choice/repeats.ts';
import { dangerousAnswers, usualAnswers } from './offers.ts';
import { reading } from './reading.ts';
import { buildIndex, type PhraseIndex, type Saying } from './phrase-index.ts';
import { meantBy, subjects, type Scene } from './scene.ts';
import { statementsOf, type Statement } from './tokens.ts';
import { unsaidIn, wondered } from './denial/unsaid.ts';
import { buildPast } from './denial/past.ts';
import { buildSureness, withoutDoubtful, type Around } from './choice/sure.ts';
import { buildUses } from './choice/uses.ts';
import { compileWords } from './words-text.ts';

/** An answer to offer for confirmation. */
export interface Candidate {
  readonly question: string;
  readonly answer: string;
  /** always false: only the rider can confirm it */
  readonly confirmed: false;
}

export interface Reading {
  /** id of the phrase in the rules */
  readonly phrase: string;
  /** the rider's words, safe to print, cut when very long */
  readonly text: string;
  /** where they begin in what was said, UTF-16 units */
  readonly position: number;
  /** other words that overlapped these and are told with them: where each begins and stops in what was said */
  readonly joined?: readonly (readonly [start: number, stop: number])[];
  /** the end that was named, if any */
  readonly end?: Ends;
  /** denied: "no harshness" */
  readonly negated: boolean;
  readonly ambiguous: boolean;
  /** the opposite things it can mean, when it is ambiguous */
  readonly means: readonly string[];
  /** ids of the questions that tell the meanings apart */
  readonly separates: readonly string[];
  readonly candidates: readonly Candidate[];
  /** the signs that its meanings show, when it is ambiguous: one of them may be picked, and none is told by the words alone */
  readonly couldShow?: readonly Candidate[];
  /** what else was said that answers a question of this one otherwise, in the rider's words: ask again */
  readonly clashes?: readonly string[];
  /** 0..1: 1 when the words stand there as in the rules, less for slips and for words far apart */
  readonly score: number;
  /** 0..1: how likely the surest of what it offers is right or plausible; absent where that was not worked out */
  readonly sure?: number;
}

export interface Matcher {
  /** @returns readings in the order of the text; the same text gives the same readings */
  match(text: string): Reading[];
}

export type MatcherRules = Pick<CompiledRules, 'words' | 'concepts' | 'endNames' | 'questions' | 'heard'>;

/**
 * Reads the phrases of the rules once; matching then takes well under a millisecond a sentence.
 * @param compiled of these very rules, where it was kept
 */
export function buildMatcher(rules: MatcherRules, compiled?: CompiledWords): Matcher {
  const words = compiled ?? compileWords(rules);
  const index = buildIndex(rules.endNames, words);
  const questions = new Map(rules.questions.map((q) => [q.id, q]));
  const subject = subjects(words.meanings);
  const past = buildPast(words.meanings);
  const sureness = buildSureness(rules.heard, buildUses(words));
  // Words that may mean a danger are asked about, however doubtful.
  const mayBeDanger = ({ question, answer }: Candidate): boolean => {
    const { safety, dangerous } = questions.get(question)!;
    return safety || dangerous[answer] !== undefined;
  };
  const sound = usualAnswers(rules.questions);
  // A danger is offered whatever else its words say, and where they stand apart.
  const dangerous = dangerousAnswers(rules.questions);
  const isDangerous = ({ phrase }: Saying): boolean => phrase.couldBe.some(dangerous);
  const isDanger = ({ saying }: Find): boolean => isDangerous(saying);
  // That all is well is said of a place only where the place or an end is said with it.
  const allIsWell = ({ saying: { phrase } }: Find): boolean =>
    phrase.couldBe.length > 0 && phrase.couldBe.every(sound);
  const dangers = new Set(
    rules.questions
      .filter((q) => q.safety || Object.keys(q.dangerous).length > 0)
      .map((q) => withoutEnd(q.id)),
  );
  // What was well, which end it was at and a danger are told all the same, of whatever time.
  const tellsOfASign = (find: Find): boolean =>
    !tellsEnd(find.saying.phrase) &&
    !allIsWell(find) &&
    find.saying.phrase.couldBe.every(({ question }) => !dangers.has(withoutEnd(question)));
  /**
   * @param guesses whether words that stand apart are read too
   * @returns the readings, and whether a sign was named that was not told: over by now, asked about, done against
   */
  const read = (
    text: string,
    statements: readonly Statement[],
    guesses: boolean,
  ): { readings: Reading[]; silenced: boolean } => {
    let silenced = false;
    const readings: Reading[] = [];
    const weak: Said[] = [];
    const found = new Map<Candidate, { readonly find: Find; readonly around: Around }>();
    const noted = (find: Find, around: Around, read: Reading): Reading => {
      for (const said of read.candidates) found.set(said, { find, around });
      return read;
    };
    const sure = (said: Candidate): number => {
      const at = found.get(said);
      return at === undefined || sureness === undefined ? 1 : sureness(at.find, at.around, said);
    };
    let carried: Carried;
    let fromBefore: Carried;
    const kept = keptEnd();
    let sentence = -1;
    let spokenOf: Scene[] = [];
    let whole = false;
    const scenes = scenesOf(statements, index);
    for (const [i, scene] of scenes.entries()) {
      const { tokens } = scene;
      if (statements[i]!.sentence !== sentence) {
        fromBefore = kept.after(carried ?? fromBefore);
        carried = undefined;
        spokenOf = [];
      }
      sentence = statements[i]!.sentence;
      const unsaid = unsaidIn(statements, i);
      const over = past(statements, scenes, i);
      const mentions = mentionsIn(tokens);
      kept.named(mentions);
      if (mentions.length > 0 || statements[i]!.contrast) spokenOf = [];
      spokenOf.push(scene);
      whole ||= mentions.some(({ ends }) => ends === 'both');
      const may = subject(spokenOf);
      const all = index
        .find(scene)
        .flatMap((saying) => {
          const phrase = meantBy(saying.phrase, may);
          return phrase === undefined ? [] : alignments({ ...saying, phrase }, scene);
        })
        .filter((find) => {
          const isSilent =
            unsaid(find.places) || ((over(find.places) || wondered(statements[i]!)) && tellsOfASign(find));
          silenced ||= isSilent && !tellsEnd(find.saying.phrase);
          return !isSilent && !(find.elsewhere && mentions.length === 0 && allIsWell(find));
        })
        .filter(
          (find, _, others) =>
            !find.loose ||
            tellsEnd(find.saying.phrase) ||
            (guesses && find.loose === 'apart' && !isDanger(find) && !allIsWell(find)) ||
            (isDanger(find) && !find.saying.wide) ||
            agreedOn(find, others),
        )
        .filter((find, _, others) => !(mixesTwo(find, others, tokens) && tellsOfASign(find)));
      const around = { ...scene, mentions, finds: all };
      const finds = keepBest(
        all.filter((find) => find.saying.phrase.weak === undefined),
        tokens,
        isDanger,
      );
      const little = keepBest(
        all.filter((find) => find.saying.phrase.weak !== undefined),
        tokens,
        isDanger,
      );
      // A danger is of no end that another sentence named.
      const endAt = (find: Find): Ends | undefined =>
        endOf(tokens, mentions, find.places, carried ?? (isDanger(find) ? undefined : fromBefore));
      const denials = denied(
        tokens,
        finds.map((f) => f.places),
      );
      const said = finds.flatMap((find, i): Said[] => {
        // Where a sign is denied, that denial is told, and none of which end it was at.
        if (denials[i]! && tellsEnd(find.saying.phrase) && sharesWord(find, finds)) return [];
        // A denial reaches no place that was told elsewhere in the sentence.
        if (denials[i]! && find.elsewhere) return [];
        const ends = endAt(find);
        const read = noted(find, around, reading(find, tokens, text, ends, denials[i]!, questions));
        return read.ambiguous || read.negated || read.candidates.length > 0 ? [{ find, reading: read }] : [];
      });
      readings.push(...withoutRivals(said, mayBeDanger));
      kept.told(said.flatMap((s) => (allIsWell(s.find) ? [] : [s.reading])));
      // Where a sign is denied, so is the trouble.
      const denies = said.some((s) => s.reading.negated);
      const told = finds.map((f) => f.places);
      for (const find of denies ? [] : little) {
        if (denied(tokens, [...told, find.places]).at(-1)!) continue;
        const ends = endAt(find);
        const read = reading(find, tokens, text, ends, false, questions);
        weak.push({ find, reading: noted(find, around, read) });
      }
      carried = leftOver(mentions, carried);
    }
    for (const { tokens, hits, finds } of acrossSentences(statements, scenes, index, isDangerous))
      for (const find of finds) {
        const mentions = mentionsIn(tokens);
        const ends = endOf(tokens, mentions, find.places, undefined);
        const read = reading(find, tokens, text, ends, false, questions);
        readings.push(noted(find, { tokens, hits, mentions, finds }, read));
      }
    // Of a bike that is so as a whole, an end that is only named beside it tells nothing.
    const telling = whole ? weak.filter(({ find }) => !tellsEnd(find.saying.phrase)) : weak;
    const meaning = statements.flatMap(({ tokens }) => tokens).filter(({ filler }) => !filler).length;
    const said = withoutRepeats([...readings, ...besides(telling, readings, meaning)]);
    const settled = offeredOnce(onePerQuestion(said, questions));
    return { readings: withClashes(withoutDoubtful(settled, sure, mayBeDanger), questions), silenced };
  };
  return {
    match(text) {
      const statements = statementsOf(text, index.ends);
      const { readings, silenced } = read(text, statements, false);
      // Where nothing was understood, the sentence as a whole and words that stand apart are better than to hear nothing.
      const heard = silenced || readings.some(tellsASign);
      return heard ? readings : read(text, wholeSentences(statements), true).readings;
    },
  };
}

/** More than which end is spoken of. */
const tellsASign = ({ ambiguous, negated, candidates }: Reading): boolean =>
  ambiguous || negated || candidates.some(({ answer }) => !END_ANSWERS.has(answer));

/** Every statement with what stands in it; one that names no place has that of a neighbour in its sentence. */
function scenesOf(statements: readonly Statement[], { lexicon, vocabulary }: PhraseIndex): Scene[] {
  const alone = statements.map((statement) => lexicon.read(statement, vocabulary));
  const out: Scene[] = [];
  for (const [i, { sentence, contrast }] of statements.entries()) {
    const fromBefore = !contrast && statements[i - 1]?.sentence === sentence ? out[i - 1] : undefined;
    const next = statements[i + 1];
    const fromNext = next?.sentence === sentence && !next.contrast ? alone[i + 1] : undefined;
    out.push(lexicon.withPlaces(lexicon.withPlaces(alone[i]!, fromBefore), fromNext));
  }
  return out;
}

const sharesWord = (find: Find, all: readonly Find[]): boolean =>
  all.some((other) => other !== find && other.places.some((p) => find.places.includes(p)));

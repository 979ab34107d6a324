/** What a result says of leaving alone, not knowing, or stopping, and what is not advised. */
import { withStop, percent } from '../../form/text.ts';
import { askWords, evidenceText, type Audience, type WordedRules } from '../evidence-words.ts';
import { shownCauses, type ShownCause } from '../result/ideas.ts';
import { plainResult } from '../plain-words.ts';
import { firstOf, type Result } from '../result/result.ts';
import { ideaWords, NO_WORDS, taskWords, type Voice, type Words } from './voice.ts';
import { atOnceWords } from '../phrases.ts';
import { paragraph } from '../wrap.ts';

/** Below this a cause is no news beside a bike that is right. */
const WORTH_NAMING = 0.05;

/** Of those, what a mechanic looks at first. */
const MOST_IDEAS = 3;

/** The causes to look at where no step is named for any: likeliest first, without those that the verdict names itself. */
export function maybes(r: Pick<Result, 'verdict' | 'because' | 'causes' | 'nothing'>): ShownCause[] {
  if (r.verdict === 'change') return [];
  const named =
    r.verdict === 'stop' ? [] : r.verdict === 'leave' ? [shownCauses(r)[0]] : isNotYet(r) ? leadersOf(r) : [];
  return shownCauses(r)
    .filter(
      ({ cause, probability }) => probability >= WORTH_NAMING && !named.some((one) => one?.cause === cause),
    )
    .slice(0, MOST_IDEAS);
}

type Leader = ShownCause | { readonly probability: number; readonly cause?: undefined };
const isCause = (one: Leader): one is ShownCause => one.cause !== undefined;

/** The two likeliest, of the causes and nothing off; that has no cause. */
function leadersOf(r: Pick<Result, 'causes' | 'nothing'>): Leader[] {
  const all: Leader[] = [{ probability: r.nothing }, ...shownCauses(r)];
  return all.toSorted((a, b) => b.probability - a.probability).slice(0, 2);
}

/** Whether likelihoods are told in the end: what has a reason of its own tells that. */
const isNotYet = ({ because }: Pick<Result, 'because'>): boolean =>
  because === null || !OWN_REASONS.has(because);
const OWN_REASONS: ReadonlySet<string> = new Set(['none-of-these', 'one-impression', 'unexplained']);

/** From here on a cause that a test speaks against is a contradiction, and a bike that nothing is off on looks right. */
export const LIKELY = 0.5;

/** The verdict in a line. */
export function headLine(result: Result, { style }: Words): string {
  switch (result.verdict) {
    case 'stop':
      return style.strong(style.warn(paragraph('STOP: do not ride this bike', style.width)));
    case 'change':
      return style.strong('Do this first');
    case 'leave':
      return style.strong('Leave it alone');
    case 'unknown':
      return style.strong(unknownHead(result));
  }
}

/** Where nothing is to be changed yet: what is likelier than not is not called unsure. */
export function unknownHead(result: Result): string {
  return result.because === null && likeliestOf(result) >= LIKELY
    ? 'Change nothing yet'
    : 'Not sure yet: change nothing';
}

/** Of a bike that is right and all causes, as they are told. */
function likeliestOf(result: Result): number {
  return Math.max(result.nothing, shownCauses(result)[0]?.probability ?? 0);
}

/** What the result says of leaving alone, not knowing, or stopping. */
export function verdictLines(r: Result, words: Words): string[] {
  return verdictTexts(r, words).map((text) => paragraph(text, words.style.width, '  '));
}

/** The same, a text each: for printed forms that fold lines themselves. */
export function verdictTexts(r: Result, words: Voice): string[] {
  const { leftIn } = words.audience === 'rider' ? plainResult(r, words.rules) : r;
  const [lead, ...rest] = bareTexts(r, words);
  return lead === undefined ? [] : [lead, ...(leftIn === undefined ? [] : [leftIn.do]), ...rest];
}

/** Without what may go back. */
function bareTexts(r: Result, words: Voice): string[] {
  const [lead] = shownCauses(r);
  const first = firstOf(r);
  switch (r.verdict) {
    case 'stop':
      return [
        ...r.cautions.filter((c) => c.level === 'stop').map((c) => c.text),
        ...foundLines(r, words),
        ...(first === undefined ? [] : [`${first.do}.`]),
      ];
    case 'change':
      return [];
    case 'leave':
      return [
        ...(r.offTarget.length === 0
          ? [`Nothing on the bike looks off (${percent(r.nothing)}). The settings are not the problem.`]
          : [`Nothing that was felt speaks for a change (${percent(r.nothing)}).`, ...offLines(r, words)]),
        'Write down every number as it stands now.',
        ...(words.rules.leftAlone === undefined ? [] : [words.rules.leftAlone]),
        ...(lead === undefined || lead.probability < WORTH_NAMING
          ? []
          : [`Next most likely: ${ideaWords(lead, words)} (${percent(lead.probability)}).`]),
      ];
    case 'unknown':
      if (r.because === 'none-of-these')
        return [
          `No cause known here fits the answers (something else: ${percent(r.none)}). Have a qualified mechanic look at the bike. Have somebody experienced watch it ridden.`,
        ];
      if (r.because === 'one-impression')
        return [
          'Nearly every answer follows one impression, whatever was asked. Change nothing yet. Have the bike looked over in the stand, or let somebody else ride it.',
        ];
      if (r.because === 'unexplained')
        return [
          `Something was noticed, but nothing known here explains it well enough (nothing off: ${percent(r.nothing)}). Change nothing. Have a qualified mechanic look at the bike. Have somebody experienced watch it ridden.`,
        ];
      return notYet(r, words);
  }
}

/** What was found that stops it, in the words of the answers; what is likely behind it stands below. */
function foundLines({ found = [] }: Result, { rules }: Voice): string[] {
  const said = found.flatMap(({ question, answer }) => {
    const asked = rules.questions.find(({ id }) => id === question);
    const one = asked?.answers.find(({ id }) => id === answer);
    return one === undefined ? [] : [one.text];
  });
  return said.length === 0 ? [] : [`Found: ${[...new Set(said)].join('; ')}.`];
}

/** What is likeliest, and why that is not enough to change anything on. */
function notYet(r: Result, words: Voice): string[] {
  // By the very numbers that are told.
  const two = leadersOf(r).map((one) => ({
    said: isCause(one) ? ideaWords(one, words) : 'nothing off',
    probability: one.probability,
  }));
  const atOnce = atOnceWords(
    two.map(({ probability }) => probability),
    100,
  );
  const [lead, next] = two.map(({ said, probability }) => `${said} (${percent(probability)})`);
  const { refused, blocked } = words.audience === 'rider' ? plainResult(r, words.rules) : r;
  const isRefused = ({ id }: { readonly id: string }): boolean => refused.some((one) => one.id === id);
  const cannot = blocked.filter((one) => isRefused(one) || turnsLead(one.id, r, words));
  const waits = new Set(cannot.flatMap(({ waits: next }) => (next === null ? [] : [waitWords(next, words)])));
  const [against] =
    r.nothing < LIKELY && (shownCauses(r)[0]?.probability ?? 0) >= LIKELY
      ? refused.filter(({ id, ridden, less }) => ridden && less === null && turnsLead(id, r, words))
      : [];
  if (against !== undefined && words.rules.againstTest !== undefined)
    return [
      `The answers and what was tried disagree. Likeliest by the answers: ${lead}. But not "${against.do}": ${against.why}.`,
      words.rules.againstTest,
    ];
  return [
    `Likeliest so far: ${lead}${next === undefined ? '' : `. Next: ${next}`}.${atOnce === undefined ? '' : ` ${atOnce}`}`,
    ...(refused.length + cannot.length === 0
      ? [whyNothing(r), ...offLines(r, words)]
      : [
          ...offLines(r, words),
          ...[...refused, ...cannot.filter((one) => !isRefused(one))].map(({ do: what, why }) =>
            withStop(`Not "${what}": ${why}`),
          ),
          ...(waits.size > 0 ? waits : [wayOut(r, words)]),
        ]),
  ];
}

/** What comes after a step that this bike has not, and what that waits for. */
function waitWords(
  { do: what, why, ask }: NonNullable<Result['blocked'][number]['waits']>,
  { rules, audience }: Voice,
): string {
  return ask === null || rules === NO_WORDS
    ? `After that comes "${what}", but ${withStop(why)}`
    : `After that comes "${what}". First check: ${withStop(askWords(rules, ask, audience))}`;
}

/** Why nothing is to be changed, where nothing is refused and nothing that would be turned is missing. */
function whyNothing(r: Result): string {
  if (r.nothing >= LIKELY)
    return r.offTarget.length === 0
      ? 'So far nothing speaks for a change.'
      : 'So far nothing that was felt speaks for a change.';
  return likeliestOf(r) >= LIKELY
    ? 'But no step for it promises enough to be worth a trial.'
    : 'That is too unsure to change anything.';
}

/** What a gauge read off its target, and what becomes of that; nothing where all that was read is on it. */
export function offLines({ offTarget }: Result, { rules, audience }: Voice): string[] {
  if (offTarget.length === 0) return [];
  const read = offTarget.map((one) => evidenceText(rules, one, audience));
  return [
    `But not all is on target. ${read.map(withStop).join(' ')}${rules.offTarget === undefined ? '' : ` ${rules.offTarget}`}`,
  ];
}

/** Whether an adjustment turns what the likeliest cause is about. */
function turnsLead(id: string, { causes }: Result, { rules }: Voice): boolean {
  const lead = rules.causes.find((c) => c.id === causes[0]?.id);
  const setting = lead === undefined ? undefined : rules.settings[lead.setting];
  const turned = rules.adjustments.find((a) => a.id === id)?.change?.setting;
  return (
    turned !== undefined &&
    turned === `${setting?.end === undefined ? '' : `${setting.end}.`}${setting?.adjuster}`
  );
}

export const WOULD_TELL = 'To find out:';

/** What is left where what looked best is refused: the look that would tell, or somebody who can look. */
function wayOut(r: Result, words: Voice): string {
  const telling = tellingOf(r, words)?.text;
  return telling === undefined
    ? 'No question left would settle it. Have a qualified mechanic look at the bike.'
    : `${WOULD_TELL} ${telling}`;
}

/** The question that the verdict itself says would tell, by id; undefined where it names none. */
export function toldAbove(r: Result, words: Voice): string | undefined {
  return verdictTexts(r, words).some((text) => text.startsWith(WOULD_TELL))
    ? tellingOf(r, words)?.question
    : undefined;
}

/** What to find out first: what is about the end of the likeliest cause, open or left open; undefined: nothing. */
export function tellingOf(
  r: Result,
  words: Voice,
): { readonly question: string; readonly text: string } | undefined {
  const { rules, audience } = words;
  const here = (question: string): boolean => isAbout(question, r, rules);
  const task = r.assignments.find(({ question }) => here(question)) ?? r.assignments[0];
  if (r.next !== null && (task === undefined || here(r.next.question))) {
    const { question } = r.next;
    return { question, text: withStop(askWords(rules, question, audience)) };
  }
  return task === undefined ? undefined : { question: task.question, text: withStop(taskWords(task, words)) };
}

/** A smaller step of what was ridden in vain, in change notation, where nothing else is advised. */
export function smallerStep({ verdict, because, refused }: Result): string | undefined {
  return verdict !== 'unknown' || because !== null
    ? undefined
    : (refused.find(({ less }) => less !== null)?.less ?? undefined);
}

/** Whether a question is about the end of the likeliest cause, or about none. */
function isAbout(question: string, { causes }: Result, rules: WordedRules): boolean {
  const lead = rules.causes.find(({ id }) => id === causes[0]?.id);
  const end = lead === undefined ? undefined : rules.settings[lead.setting]?.end;
  const asked = rules.questions.find((q) => q.id === question)?.end;
  return end === undefined || asked === undefined || asked === end;
}

/** What a mechanic, who might do it all the same, is told beside a change; beside no change the verdict itself tells it. */
export function refusedLines(
  { verdict, refused }: Pick<Result, 'verdict' | 'refused'>,
  audience: Audience,
): string[] {
  if (verdict !== 'change' || audience !== 'mechanic') return [];
  return refused.map(({ do: what, why }) => `Not advised: "${what}", because ${why}.`);
}

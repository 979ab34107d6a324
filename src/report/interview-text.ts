/** The lines an interview prints around its questions. */
import type { Running, Why } from '../interview/why.ts';
import type { Audience } from './evidence-words.ts';
import { percent } from '../form/text.ts';
import { atOnceWords } from './phrases.ts';
import { fit, page, type Style } from './style.ts';
import { paragraph } from './wrap.ts';

/**
 * `Question 3 (on the stand, 2 min), so far: front rebound too slow 41 %, nothing off 20 %`; a rider gets the first chance alone
 *
 * @param number or how many are to go of those left open before; past enough, which of how many more at most
 * @param r what it looks like so far; absent before anything was answered
 */
export function runningLine(
  number:
    | number
    | { readonly left: number }
    | { readonly number: number; readonly at: number; readonly most: number },
  where: string,
  r: Running | undefined,
  audience: Audience = 'mechanic',
): string {
  const count =
    typeof number === 'number'
      ? `Question ${number}`
      : 'at' in number
        ? `Question ${number.number}, ${number.at} of at most ${number.most} more`
        : number.left === 1
          ? 'Still open'
          : `Still open, ${number.left} to go`;
  const lead = `${count}${where === '' ? '' : ` (${where})`}`;
  if (r === undefined) return lead;
  const look = r.looking ? '. One check on the bike before any advice' : '';
  if (audience === 'rider') {
    const [{ id, name, probability }] = r.leaders as [Running['leaders'][number]];
    // A cause that is named leads the rider on; that nothing was found so far does not, nor that it may yet be nothing.
    if (id === 'none' || (id === 'nothing' && probability < 0.5)) return `${lead}: no clear cause yet${look}`;
    return `${lead}: ${id === 'nothing' ? name : 'best guess'} so far, ${percent(probability)} likely${look}`;
  }
  const told = r.leaders.map(({ probability }) => probability);
  const both = atOnceWords(told, 100) === undefined ? '' : ' (both can be true)';
  return `${lead}, so far: ${r.leaders.map((l) => `${l.name} ${percent(l.probability)}`).join(', ')}${both}${look}`;
}

/** Where a question can be answered, when that is not here and now. */
export function whereText(how: 'recall' | 'stand' | 'ride', minutes: number): string {
  if (how === 'recall') return '';
  return `${how === 'stand' ? 'on the stand' : 'needs a ride'}, ${minutes < 1 ? 'under 1' : Math.round(minutes)} min`;
}

/** Groups told one by one; the rest are summed up. */
const MOST_GROUPS = 3;

/**
 * What the question decides, in a sentence or two: answers after which the same explanation leads are told together,
 * the largest group as what holds otherwise.
 */
export function whyText(list: readonly Why[], safety: boolean, style: Style): string {
  const groups = new Map<string, Why[]>();
  for (const w of list) {
    const key = w.leads?.id ?? 'nothing';
    groups.set(key, [...(groups.get(key) ?? []), w]);
  }
  const [most, ...others] = [...groups.values()].sort((a, b) => b.length - a.length);
  const name = (group: readonly Why[]): string => group[0]!.leads?.name ?? 'nothing off';
  const chances = (group: readonly Why[]): string => {
    const all = group.map((w) => w.leads?.probability ?? w.nothing);
    const [low, high] = [percent(Math.min(...all)), percent(Math.max(...all))];
    return low === high ? low : `${low} to ${high}`;
  };
  const shown = others.slice(0, MOST_GROUPS);
  const sentences = [
    ...(safety ? ['Always asked: a fault here comes before any setting.'] : []),
    ...(shown.length === 0
      ? [
          safety
            ? `The answers hardly change which cause is likeliest: "${name(most!)}" (${chances(most!)}).`
            : `Whatever you answer, "${name(most!)}" stays most likely (${chances(most!)}).`,
        ]
      : [
          `${shown
            .map(
              (g) => `${g.map((w) => `"${w.text}"`).join(' or ')} would point to: ${name(g)} (${chances(g)})`,
            )
            .join('; ')}; ${
            others.length > shown.length
              ? 'the other answers sort out less likely causes'
              : `any other answer: ${name(most!)} (${chances(most!)})`
          }.`,
        ]),
  ];
  const text = paragraph(sentences.join(' '), style.width - 1, '  ');
  return `${fit(text, style)}\n`;
}

/** What to go and ride or check, and bring back. */
export function ridersListText(
  list: readonly { readonly question: string; readonly text: string }[],
  style: Style,
): string {
  const lines = [
    style.strong('To check next'),
    ...list.map((x, i) => paragraph(x.text, style.width, `${i + 1}. `.padStart(5))),
  ];
  return page(lines, style);
}

/**
 * What a rider's words for something tried mean: which settings were turned together, which way each, and at which end.
 * "Rebound" without a circuit is every circuit of that name; an end that nobody knows is either of them.
 */
import { printable } from '../../form/text.ts';
import { ENDS } from '../../bike/sheet.ts';
import { nearest } from '../../form/suggest.ts';
import type { Model } from '../../diagnosis/model.ts';
import type { Setting } from '../../rulebase/compiled.ts';
import type { Tried } from '../case.ts';

/** One setting, turned. */
export interface Turned {
  readonly setting: Setting;
  /** index of the cause that turning it so takes away; undefined where only the sign was said */
  readonly cures?: number;
  /** as in notation, where it was said by sign: open, more, up (+); close, less, down (−) */
  readonly sign?: 1 | -1;
}

/** The ways in which notation is signed; what a setting calls its ways otherwise stands beside it in the rules. */
const SIGNS: ReadonlyMap<string, 1 | -1> = new Map([
  ['open', 1],
  ['more', 1],
  ['up', 1],
  ['close', -1],
  ['less', -1],
  ['down', -1],
]);
const EITHER = new Set(['either', 'unknown']);

/**
 * @returns what it can have been, each with all that was turned; more than one where the end is not known
 * @throws never; sentences say what cannot be read, all of it at once
 */
export function meantBy(model: Pick<Model, 'rules'>, tried: Tried): readonly (readonly Turned[])[] | string {
  const wrongEnd = wrongEndOf(tried);
  const sound = wrongEnd === undefined ? tried : withoutEnd(tried);
  const found = settingsOf(model.rules.settings, sound);
  if (typeof found === 'string') return [wrongEnd, found].filter((why) => why !== undefined).join(' ');
  const name = nameOf(sound);
  const ways =
    typeof tried.direction === 'string'
      ? tried.direction.split(/\s*(?:,|\band\b)\s*/)
      : (tried.direction ?? []);
  const out: Turned[][] = [];
  const wrong = new Set<string>(wrongEnd === undefined ? [] : [wrongEnd]);
  for (const together of found) {
    const turned: Turned[] = [];
    for (const setting of together) {
      const read = turnedBy(model, setting, ways, name);
      if (typeof read === 'string') wrong.add(read);
      else turned.push(read);
    }
    out.push(turned);
  }
  return wrong.size > 0 ? [...wrong].join(' ') : out;
}

/** An end that is none, or not the one in the setting's own name. */
function wrongEndOf({ setting = '', end }: Tried): string | undefined {
  if (end === undefined || EITHER.has(end)) return undefined;
  if (end !== 'both' && !ENDS.some((one) => one === end))
    return `${printable(setting.replace(PREFIX, ''))}: ${printable(end)} is not an end of the bike; use front, rear, both or either.`;
  const own = ENDS.find((one) => setting.startsWith(`${one}.`));
  return own === undefined || own === end
    ? undefined
    : `${printable(setting)} is at the ${own}, and its end says ${end}; leave one of them out.`;
}

function withoutEnd({ end: _, ...rest }: Tried): Tried {
  return rest;
}

/** What stands before a setting where its end is not known, or is both. */
const PREFIX = /^(?:either|unknown|both)\./;

const nameOf = ({ setting = '', end }: Tried): string =>
  end === undefined || EITHER.has(end) || end === 'both' || setting.startsWith(`${end}.`)
    ? setting
    : `${end}.${setting}`;

const ENDED = new RegExp(`^(?:${ENDS.join('|')})\\.`);

/** What a setting may be called without its end: by its circuit, by its kind, or as riders call it. */
function shortNames({ id, called }: Setting): string[] {
  const own = id.replace(ENDED, '');
  return [own, own.replace(/\.[^.]*$/, ''), ...(called ?? [])];
}

/** The settings of the name, of each end that it can have been. */
function settingsOf(settings: readonly Setting[], tried: Tried): Setting[][] | string {
  const { end } = tried;
  const full = nameOf(tried);
  const whole = named(settings, full);
  if (whole.length > 0) return [whole];
  const bare = (tried.setting ?? '').replace(PREFIX, '');
  const ends = ENDS.filter((one) => end === undefined || EITHER.has(end) || end === 'both' || end === one);
  const sided = ends.map((e) => named(settings, `${e}.${bare}`)).filter((all) => all.length > 0);
  if (sided.length > 0) return end === 'both' ? [sided.flat()] : sided;
  // Said of an end, though the bike has only one: the levers.
  const alone = named(settings, bare);
  if (alone.length > 0) return [alone];
  const near =
    nearest(
      full,
      settings.flatMap((one) => [
        one.id,
        ...(one.end === undefined ? [] : shortNames(one).map((name) => `${one.end}.${name}`)),
      ]),
    ) ?? nearest(bare.replace(ENDED, ''), settings.flatMap(shortNames));
  return `There is no setting ${printable(full)}.${near === undefined ? '' : ` Did you mean ${near}?`}`;
}

/** The setting itself, or called so; else all the circuits of a name that leaves the circuit out. */
function named(settings: readonly Setting[], name: string): Setting[] {
  const own = settings.filter(({ id, called = [] }) => id === name || called.includes(name));
  return own.length > 0
    ? own
    : settings.filter(({ id, partner }) => partner !== undefined && id.startsWith(`${name}.`));
}

function turnedBy(
  model: Pick<Model, 'rules'>,
  setting: Setting,
  ways: readonly string[],
  name: string,
): Turned | string {
  const { causes } = model.rules;
  const read = new Set<number>();
  const out: { cures?: number; sign?: 1 | -1 }[] = [];
  for (const way of ways) {
    const word = way.trim().toLowerCase();
    const direction = setting.ways?.[word];
    const sign = SIGNS.get(word);
    let cures = setting.causes.find((c) => causes[c]!.direction === direction);
    // One way only: whatever was done to it was done against what can be wrong with it.
    if (cures === undefined && sign === undefined && setting.causes.length === 1) cures = setting.causes[0]!;
    if (cures === undefined && sign === undefined)
      return `${printable(name)}: ${printable(way)} is not a direction; use ${wordsOf(setting)}.`;
    const one = cures === undefined ? { sign: sign! } : { cures };
    const key = cures === undefined ? sign! : cures + 2;
    if (!read.has(key)) out.push(one);
    read.add(key);
  }
  if (out.length > 1) return `${printable(name)} was tried both ways; list each way with its own result.`;
  if (out.length === 1) return { setting, ...out[0]! };
  return setting.causes.length === 1
    ? { setting, cures: setting.causes[0]! }
    : `${printable(name)}: which way it was turned is not said.`;
}

/** The first word of each way; the signed ones where the rules give none. */
function wordsOf({ ways }: Setting): string {
  const first = new Map<string, string>();
  for (const [word, direction] of Object.entries(ways ?? {}))
    if (!first.has(direction)) first.set(direction, word);
  return first.size === 0 ? 'open or close, more or less' : [...first.values()].join(' or ');
}

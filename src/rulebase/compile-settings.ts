/** Settings and their directions → settings and causes, with priors scaled to the expected number of causes. */
import type { Cause, Setting } from './compiled.ts';
import type { End } from '../bike/sheet.ts';
import type { OwnSetting } from '../bike/own-setting.ts';
import { adjusterOf } from './compile-adjusters.ts';
import { oneKnobWords, standing, type Entry } from './entries.ts';
import type { Ids } from './look-up.ts';
import { defined } from '../form/plain-data.ts';
import type { Place } from '../form/problem.ts';
import type { SettingSource } from './schema/setting.ts';
import { didYouMean } from '../form/suggest.ts';

type Weighed = Omit<Cause, 'prior'> & { readonly weight: number };

export function linkSettings(
  entries: readonly Entry<SettingSource>[],
  expectedCauses: number,
  cautions: Ids,
  word: (text: string, place: Place) => number,
): { settings: Setting[]; adjusters: OwnSetting[]; causes: Cause[] } {
  const live = entries.filter((e) => e.data.status !== 'retired');
  const ids = new Set(live.map((e) => e.id));
  const settings: Setting[] = [];
  const adjusters: OwnSetting[] = [];
  const weighed: Weighed[] = [];
  for (const e of live) {
    const { data, fill } = e;
    const own: number[] = [];
    for (const [direction, d] of Object.entries(data.directions)) {
      own.push(weighed.length);
      weighed.push(
        defined<Weighed>({
          id: `${e.id}.${direction}`,
          setting: settings.length,
          direction,
          name: fill(d.name),
          plain: fill(d.plain),
          oneKnob: oneKnobWords(d['one-knob'], fill),
          pair: d.pair && { name: fill(d.pair.name), plain: fill(d.pair.plain) },
          weight: word(d.prior, e.place(['directions', direction, 'prior'])),
          whileLikely: whileLikely(e, direction, cautions),
          reads: d.reads,
        }),
      );
    }
    if (own.length === 0 || own.length > 2)
      e.wrong(
        ['directions'],
        'shape',
        `${e.id} has ${own.length} directions.`,
        'Give it one, or two that exclude each other.',
      );
    const other = (key: 'partner' | 'put-back-with'): string | undefined =>
      data[key] && e.named('setting', data[key], ids, [key]);
    const name = fill(data.name);
    const { adjuster, own: row } = adjusterOf(e, name);
    if (row !== undefined) adjusters.push(row);
    settings.push(
      defined<Setting>({
        id: e.id,
        end: e.end,
        name,
        plain: fill(data.plain),
        oneKnob: oneKnobWords(data['one-knob'], fill),
        kind: data.kind,
        sheet: data.sheet,
        adjuster,
        where: fill(ofEnd(data.where, e.end)),
        partner: other('partner'),
        putBackWith: other('put-back-with'),
        called: data.called?.map((said) => (e.end === undefined ? said : `${e.end}.${said}`)),
        ways: waysOf(e),
        springs: data.springs,
        causes: own,
        ...standing(e),
      }),
    );
  }
  const total = weighed.reduce((sum, c) => sum + c.weight, 0);
  const causes = weighed.map(({ weight, ...cause }): Cause => ({
    ...cause,
    prior: (weight * expectedCauses) / total,
  }));
  const heavy = causes.find((c) => c.prior >= 0.9);
  if (heavy !== undefined)
    live[heavy.setting]!.wrong(
      [],
      'probability',
      `The prior of ${heavy.id} comes out at ${heavy.prior.toFixed(2)}.`,
      'Lower expected-causes, or add the other causes.',
    );
  return { settings, adjusters, causes };
}

/** What is said once for both ends, or for each. */
function ofEnd(said: SettingSource['directions'][string]['while-likely'], end: End | undefined) {
  return typeof said === 'object' ? said[end ?? 'front'] : said;
}

/** The caution of a direction at this end, where it has one. */
function whileLikely(e: Entry<SettingSource>, direction: string, cautions: Ids): string | undefined {
  const said = e.data.directions[direction]!['while-likely'];
  const template = ofEnd(said, e.end);
  const path = [
    'directions',
    direction,
    'while-likely',
    ...(typeof said === 'object' ? [e.end ?? 'front'] : []),
  ];
  return template && e.named('caution', template, cautions, path);
}

/** The words for turning it, each with the direction that it takes away. */
function waysOf(e: Entry<SettingSource>): Setting['ways'] {
  const { ways, directions } = e.data;
  if (ways === undefined) return undefined;
  const words: Record<string, string> = {};
  for (const [direction, said] of Object.entries(ways)) {
    if (!Object.hasOwn(directions, direction))
      e.wrong(
        ['ways', direction],
        'unknown-id',
        `${e.id} has no direction ${direction}.`,
        didYouMean(direction, Object.keys(directions)),
      );
    for (const word of said) {
      if (Object.hasOwn(words, word) && words[word] !== direction)
        e.wrong(
          ['ways', direction],
          'shape',
          `${e.id}: "${word}" is said of two ways.`,
          'Leave it out of one of them.',
        );
      words[word] = direction;
    }
  }
  return words;
}

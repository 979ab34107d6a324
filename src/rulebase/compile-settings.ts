/** Settings and their directions → settings and causes, with priors scaled to the expected number of causes. */
import type { Cause, Setting } from './compiled.ts';
import type { OwnSetting } from '../bike/own-setting.ts';
import { adjusterOf } from './compile-adjusters.ts';
import { oneKnobWords, standing, type Entry, type Report } from './entries.ts';
import { reportUnknown } from './look-up.ts';
import type { SettingSource } from './schema/setting.ts';
import { didYouMean } from '../form/suggest.ts';

type Word = (text: string, place: Parameters<Report>[0]) => number;

export function linkSettings(
  entries: readonly Entry<SettingSource>[],
  expectedCauses: number,
  cautionIds: ReadonlySet<string>,
  word: Word,
  report: Report,
): { settings: Setting[]; adjusters: OwnSetting[]; causes: Cause[] } {
  const live = entries.filter((e) => e.data.status !== 'retired');
  const ids = new Set(live.map((e) => e.id));
  const settings: Setting[] = [];
  const adjusters: OwnSetting[] = [];
  const weighed: (Omit<Cause, 'prior'> & { weight: number })[] = [];
  for (const e of live) {
    const own: number[] = [];
    for (const [direction, d] of Object.entries(e.data.directions)) {
      own.push(weighed.length);
      weighed.push({
        id: `${e.id}.${direction}`,
        setting: settings.length,
        direction,
        name: e.fill(d.name),
        plain: e.fill(d.plain),
        ...oneKnobWords<NonNullable<Cause['oneKnob']>>(d['one-knob'], e.fill),
        ...(d.pair === undefined ? {} : { pair: { name: e.fill(d.pair.name), plain: e.fill(d.pair.plain) } }),
        weight: word(d.prior, e.place(['directions', direction, 'prior'])),
        ...whileLikely(e, direction, cautionIds, report),
        ...(d.reads === undefined ? {} : { reads: d.reads }),
      });
    }
    if (own.length === 0 || own.length > 2) {
      report(
        e.place(['directions']),
        'shape',
        `${e.id} has ${own.length} directions.`,
        'Give it one, or two that exclude each other.',
      );
    }
    const partner = e.data.partner === undefined ? undefined : e.fill(e.data.partner);
    if (partner !== undefined && !ids.has(partner)) {
      report(e.place(['partner']), 'unknown-id', `No setting ${partner}.`, didYouMean(partner, ids));
    }
    const companion = e.data['put-back-with'] === undefined ? undefined : e.fill(e.data['put-back-with']);
    if (companion !== undefined && !ids.has(companion)) {
      report(
        e.place(['put-back-with']),
        'unknown-id',
        `No setting ${companion}.`,
        didYouMean(companion, ids),
      );
    }
    const name = e.fill(e.data.name);
    const { adjuster, own: row } = adjusterOf(e, name, report);
    if (row !== undefined) adjusters.push(row);
    settings.push({
      id: e.id,
      ...(e.end === undefined ? {} : { end: e.end }),
      name,
      plain: e.fill(e.data.plain),
      ...oneKnobWords<NonNullable<Setting['oneKnob']>>(e.data['one-knob'], e.fill),
      kind: e.data.kind,
      ...(e.data.sheet === undefined ? {} : { sheet: e.data.sheet }),
      ...(adjuster === undefined ? {} : { adjuster }),
      ...whereWords(e),
      ...(partner === undefined ? {} : { partner }),
      ...(companion === undefined ? {} : { putBackWith: companion }),
      ...saidOf(e, report),
      ...(e.data.springs === undefined ? {} : { springs: e.data.springs }),
      causes: own,
      ...standing(e),
    });
  }
  const total = weighed.reduce((sum, c) => sum + c.weight, 0);
  const causes = weighed.map(({ weight, ...cause }): Cause => ({
    ...cause,
    prior: (weight * expectedCauses) / total,
  }));
  const heavy = causes.find((c) => c.prior >= 0.9);
  if (heavy !== undefined) {
    const e = live[heavy.setting]!;
    report(
      e.place(),
      'probability',
      `The prior of ${heavy.id} comes out at ${heavy.prior.toFixed(2)}.`,
      'Lower expected-causes, or add the other causes.',
    );
  }
  return { settings, adjusters, causes };
}

/** The caution of a direction at this end, where it has one. */
function whileLikely(
  e: Entry<SettingSource>,
  direction: string,
  cautionIds: ReadonlySet<string>,
  report: Report,
): Pick<Cause, 'whileLikely'> {
  const said = e.data.directions[direction]!['while-likely'];
  const template = typeof said === 'object' ? said[e.end ?? 'front'] : said;
  if (template === undefined) return {};
  const id = e.fill(template);
  if (!cautionIds.has(id))
    reportUnknown(
      report,
      e.place([
        'directions',
        direction,
        'while-likely',
        ...(typeof said === 'object' ? [e.end ?? 'front'] : []),
      ]),
      'caution',
      id,
      cautionIds,
    );
  return { whileLikely: id };
}

/** One sentence for both ends, or the one of this end. */
function whereWords({ data: { where }, end, fill }: Entry<SettingSource>): Pick<Setting, 'where'> {
  const said = typeof where === 'object' ? where[end ?? 'front'] : where;
  return said === undefined ? {} : { where: fill(said) };
}

/** Its other names at this end, and the words for turning it. */
function saidOf(e: Entry<SettingSource>, report: Report): Pick<Setting, 'called' | 'ways'> {
  const { called, ways, directions } = e.data;
  const words: Record<string, string> = {};
  for (const [direction, said] of Object.entries(ways ?? {})) {
    if (!Object.hasOwn(directions, direction))
      report(
        e.place(['ways', direction]),
        'unknown-id',
        `${e.id} has no direction ${direction}.`,
        didYouMean(direction, Object.keys(directions)),
      );
    for (const word of said) {
      if (Object.hasOwn(words, word) && words[word] !== direction)
        report(
          e.place(['ways', direction]),
          'shape',
          `${e.id}: "${word}" is said of two ways.`,
          'Leave it out of one of them.',
        );
      words[word] = direction;
    }
  }
  return {
    ...(called === undefined
      ? {}
      : { called: called.map((name) => (e.end === undefined ? name : `${e.end}.${name}`)) }),
    ...(ways === undefined ? {} : { ways: words }),
  };
}

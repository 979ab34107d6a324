/** Why a step goes no further, waits or is passed over: sentences of the pack. */
export const REASONS = [
  'once-kept',
  'again-changed',
  'again-size',
  'again-better',
  'again-word',
  'again-scatter',
  'repeat',
  'repeat-toward',
  'repeat-by-gauge',
  'middle',
  'middle-at',
  'maker-at',
  'before-at',
  'size-felt',
  'size-far',
  'other-tyre',
  'other-rate',
  'maker-first',
  'below-maker',
  'in-one-go',
  'no-further',
  'near-most',
  'share-of-gauge',
  'gauge-first',
  'sag-goal',
  'far-off',
  'coil-firmer',
  'coil-firmer-beyond',
  'coil-softer',
  'coil-rate',
  'coil-rate-beyond',
  'at-limit',
  'range-left',
  'larger-better',
  'measure-first',
  'not-measured',
  'until-read',
  'until-read-or-stop',
  'read-later',
  'look-first',
  'repair-first',
  'measured-first',
  'began-with-change',
  'worse-still-on',
  'same-still-on',
  'was-good',
  'known-state',
  'back-uncounted',
  'back-by-sag',
  'left-good',
  'trade',
  'trade-least',
  'trade-uncounted',
  'one-at-a-time',
  'back-as-one',
  'smaller-step',
  'unproved',
  'unsure',
  'older',
  'by-the-way',
  'tried-worse',
  'tried-same-stop',
  'trial-by-gauge',
  'trial-together',
  'trial-other-way-short',
] as const;

type Reason = (typeof REASONS)[number];
export type Reasons = Readonly<Partial<Record<Reason, string>>>;

/**
 * One of them, as the middle of a sentence; where a pack has none, its key in words.
 * @param values what `{name}` in it stands for
 */
export function reasonIn(
  reasons: Reasons | undefined,
  key: Reason,
  values: Readonly<Record<string, string | number>> = {},
): string {
  const text = reasons?.[key] ?? key.replaceAll('-', ' ');
  return text.replaceAll(/\{([a-z]+)\}/g, (whole, name: string) => String(values[name] ?? whole));
}

/** The change notation `front.rebound.low+2`, `rear.spring-5psi`, as far as a case needs it: which setting, which way. */

export interface ChangeName {
  readonly setting: string;
  /** signed; + is more open, more pressure, higher */
  readonly by: number;
  readonly unit: string;
}

const FORM = /^\s*([a-z]+(?:[.-][a-z]+)*)\s*([+-])\s*(\d+(?:\.\d+)?)\s*([a-z/]*)\s*$/i;

/** @returns undefined when the text is not a change */
export function splitChange(text: string): ChangeName | undefined {
  const found = FORM.exec(text);
  if (found === null) return undefined;
  const [, setting, sign, amount, unit] = found;
  const by = Number(amount);
  if (by === 0) return undefined;
  return { setting: setting!, by: sign === '+' ? by : -by, unit: unit!.toLowerCase() };
}

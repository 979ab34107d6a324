/** Gates that go without saying: what only speaks of a part is not asked where the bike has no such part. */
import type { OwnSetting } from '../bike/own-setting.ts';
import type { End } from '../bike/sheet.ts';
import { isSuspension, type Cause, type Gate, type Link, type Setting } from './compiled.ts';

interface Parts {
  readonly settings: readonly Setting[];
  readonly causes: readonly Cause[];
  readonly adjusters: readonly OwnSetting[];
  readonly facts: ReadonlyMap<string, readonly string[]>;
}

/**
 * A question of one end whose causes at that end are all of its suspension is for ends that have one; one whose causes
 * are all of a part that a pack added is for bikes that have it.
 * @param given gates that the rule has already
 */
export function partGates(
  links: readonly Link[],
  end: End | undefined,
  { settings, causes, adjusters, facts }: Parts,
  given: readonly Gate[],
): Gate[] {
  const linked = [...new Set(links.map(([cause]) => settings[causes[cause]!.setting]!))];
  const gates: Gate[] = [];
  const gate = (path: string): void => {
    if (given.some((one) => one.on === 'bike' && one.id === path)) return;
    gates.push({ on: 'bike', id: path, values: facts.get(path)!.filter((value) => value !== 'none') });
  };
  const there = linked.filter((setting) => setting.end !== undefined && setting.end === end);
  if (end !== undefined && there.length > 0 && there.every(isSuspension)) gate(`${end}.spring`);
  const [only] = linked;
  if (linked.length === 1 && adjusters.some(({ id }) => id === only!.id)) gate(only!.id);
  return gates;
}

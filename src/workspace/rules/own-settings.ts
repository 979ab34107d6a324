/** The settings that the rule packs of this line add to the table of a bike: what its sheet is read with. */
import type { OwnSetting } from '../../bike/own-setting.ts';
import type { Io } from '../../host/io.ts';
import { loadRules } from './load-rules.ts';

/** @throws Refusal when a pack does not compile */
export async function ownSettings(io: Io): Promise<readonly OwnSetting[]> {
  return (await loadRules(io, io.packs)).adjusters;
}

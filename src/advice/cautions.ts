/** The cautions that go with a change, most serious first. */
import type { Caution, CompiledRules } from '../rulebase/compiled.ts';

const SERIOUS: readonly Caution['level'][] = ['stop', 'care', 'note'];

/**
 * @param wanted ids that the adjustment, or a dangerous answer, asks for
 * @param changing whether anything is to be changed: then those shown always come as well
 */
export function cautionsFor(
  rules: Pick<CompiledRules, 'cautions'>,
  wanted: ReadonlySet<string>,
  changing: boolean,
): Caution[] {
  const shown = rules.cautions.filter(({ id, show }) => wanted.has(id) || (show === 'always' && changing));
  return SERIOUS.flatMap((level) => shown.filter((caution) => caution.level === level));
}

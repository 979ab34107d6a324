/** Which of the steps of a new sheet are still open. */
import { valueAt, withValueAt, type Draft } from './draft.ts';
import { UNCOUNTED } from './limits.ts';
import { newSteps, type NewStep, type Wanted } from './new-steps.ts';

/** How many steps are open at most, whatever is answered from here on; an answer makes it one less, or fewer. */
export function mostOpen(draft: Draft, wanted: Wanted = {}): number {
  const asked = new Set<string>();
  let longest = draft;
  for (;;) {
    const open = newSteps(longest, wanted).find(
      (step) => !asked.has(step.path) && isOpen(longest, step, wanted),
    );
    if (open === undefined) return asked.size;
    asked.add(open.path);
    const here = longest;
    const ways = (open.choices?.map(({ value }) => value) ?? [1]).map((value) =>
      value === undefined ? here : withValueAt(here, open.path, value),
    );
    const length = (one: Draft): number => newSteps(one, wanted).length;
    longest = ways.reduce((most, one) => (length(one) > length(most) ? one : most), here);
  }
}

/** The first step that was neither answered nor passed over. */
export function nextStep(draft: Draft, wanted: Wanted = {}): NewStep | undefined {
  return newSteps(draft, wanted).find((step) => isOpen(draft, step, wanted));
}

/** What is said to be uncounted may still be counted. */
function isOpen(draft: Draft, { path }: NewStep, { passed }: Wanted): boolean {
  const value = valueAt(draft, path);
  return passed?.has(path) !== true && (value === undefined || value === UNCOUNTED);
}

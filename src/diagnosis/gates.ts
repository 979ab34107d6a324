/** Which questions may be asked, and which answers belong to a question that does not apply. */
import { atEither, type CompiledRules, type DangerWith, type Question } from '../rulebase/compiled.ts';

/** What is known when a gate is looked at. */
export interface Known {
  /** question id → answer id; a question answered "can't tell" is absent */
  readonly answers: ReadonlyMap<string, string>;
  /** what was answered beside that, where a question takes several answers */
  readonly also?: ReadonlyMap<string, readonly string[]>;
  /** the same for what goes without saying after those answers: it opens and shuts gates, and contradicts nothing */
  readonly implied?: ReadonlyMap<string, string>;
  /** questions answered "can't tell"; absent: none */
  readonly cannotTell?: ReadonlySet<string>;
  /** what the bike sheet says of a path such as front.spring; undefined when nothing is written down */
  readonly bike: (path: string) => string | undefined;
}

/**
 * May the question be asked now? A gate on a question waits for one of its answers, or for one whose end is not known; one
 * on the bike only for no contradiction.
 */
export function isOpen(question: Question, known: Known): boolean {
  return question.gates.every(({ on, id, values, lax }) => {
    const value = on === 'bike' ? known.bike(id) : saidOf(known, id);
    return value === undefined
      ? on === 'bike' || lax === true
      : values.includes(value) ||
          (on === 'question' && (saidBeside(known, id, values) || saidBeside(known, atEither(id), values)));
  });
}

/** What is known of a question: said, said without its end, or implied. */
function saidOf({ answers, implied }: Known, id: string): string | undefined {
  const either = atEither(id);
  return answers.get(id) ?? answers.get(either) ?? implied?.get(id) ?? implied?.get(either);
}

/** Whether what was said makes it needless to ask. */
export function goesWithoutSaying(question: Question, { answers, implied }: Known): boolean {
  return (
    implied !== undefined &&
    !answers.has(question.id) &&
    (implied.has(question.id) || implied.has(atEither(question.id)))
  );
}

/** The gate that an answer already given contradicts, if any: the question did not apply. */
export function contradiction(question: Question, known: Known): { id: string; value: string } | undefined {
  for (const { on, id, values } of question.gates) {
    const value = on === 'bike' ? known.bike(id) : known.answers.get(id);
    if (value === undefined || values.includes(value)) continue;
    if (on === 'question' && saidBeside(known, id, values)) continue;
    return { id, value };
  }
  return undefined;
}

/** Whether one of these was a further answer to the question. */
export function saidBeside({ also }: Pick<Known, 'also'>, id: string, values: readonly string[]): boolean {
  return also?.get(id)?.some((answer) => values.includes(answer)) === true;
}

/** An answer that stops all tuning. */
export interface Danger {
  /** id of the question as it was answered, with its end or without */
  readonly question: string;
  readonly answer: string;
  readonly caution: string;
}

/**
 * Those of the answers that stop all tuning, by themselves or beside what else was answered.
 * @param answers all that were given to this question
 * @param known what was said beside; an answer whose end is not known is one of this end, unless this end has its own
 * @param sound of that, what may say that it is harmless after all: no guess, and no answer that does not apply
 */
export function dangersOf(
  {
    id,
    dangerous,
    dangerousWith,
    harmlessWhen,
  }: Pick<Question, 'id' | 'dangerous' | 'dangerousWith' | 'harmlessWhen'>,
  answers: readonly string[],
  known: Pick<Known, 'answers' | 'also'>,
  sound: Pick<Known, 'answers' | 'also'> = known,
): Danger[] {
  const isSaid = (beside: DangerWith['beside'], of: Pick<Known, 'answers' | 'also'>): boolean =>
    Object.entries(beside).some(([other, values]) => wasSaid(of, other, values));
  return answers.flatMap((answer): Danger[] => {
    const harmless = harmlessWhen?.[answer];
    if (harmless !== undefined && isSaid(harmless, sound)) return [];
    const alone = dangerous[answer];
    if (alone !== undefined) return [{ question: id, answer, caution: alone }];
    const beside = dangerousWith?.[answer];
    return beside !== undefined && isSaid(beside.beside, known)
      ? [{ question: id, answer, caution: beside.caution }]
      : [];
  });
}

/** Without the dangers that a further question, asked only because of them, found a closer word for. */
export function saidClosest(
  { questions, cautions }: Pick<CompiledRules, 'questions' | 'cautions'>,
  dangers: readonly Danger[],
): readonly Danger[] {
  const closer = dangers.flatMap(({ question, caution }) =>
    cautions.find(({ id }) => id === caution)?.show === 'alone'
      ? []
      : questions.find(({ id }) => id === question)!.gates,
  );
  return dangers.filter(
    ({ question, answer }) =>
      !closer.some(({ on, id, values }) => on === 'question' && id === question && values.includes(answer)),
  );
}

function wasSaid(known: Pick<Known, 'answers' | 'also'>, id: string, values: readonly string[]): boolean {
  const own = known.answers.has(id) ? id : atEither(id);
  const said = known.answers.get(own);
  return said !== undefined && (values.includes(said) || saidBeside(known, own, values));
}

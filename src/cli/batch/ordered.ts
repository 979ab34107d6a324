/** Batches told by several at once, handed on in the order they came in. */
import type { Told } from './batch-runner.ts';
import type { Batch, LineBatch } from '../../workspace/cases/records.ts';

export interface Hands {
  /** how many batches may be out at once */
  readonly most: number;
  readonly tell: (batch: LineBatch) => Promise<Told>;
  readonly close: () => Promise<void>;
}

export type Tell = (batch: Batch, before: number) => Promise<Told>;

/**
 * @param here tells a batch in this thread
 * @param hire called when there is more than one batch of lines; the first is told here, because it may be the only one
 */
export async function* toldInOrder(
  batches: AsyncIterable<Batch>,
  here: Tell,
  hire: (() => Promise<Hands>) | undefined,
): AsyncGenerator<Told> {
  let hands: Hands | undefined;
  let told = 0;
  const out: Promise<Told>[] = [];
  const next = async (): Promise<Told> => {
    const one = await out.shift()!;
    told += one.told;
    return one;
  };
  try {
    for await (const batch of batches) {
      if (hire === undefined || told === 0 || !('lines' in batch)) {
        while (out.length > 0) yield await next();
        const one = await here(batch, told);
        told += one.told;
        yield one;
        continue;
      }
      hands ??= await hire();
      const sent = hands.tell(batch);
      // Looked at when its turn comes; until then a failure is nobody's surprise.
      sent.catch(() => undefined);
      out.push(sent);
      if (out.length >= hands.most) yield await next();
    }
    while (out.length > 0) yield await next();
  } finally {
    await hands?.close();
  }
}

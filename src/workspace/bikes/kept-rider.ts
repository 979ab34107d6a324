/** How readily the rider of a bike names signs, kept by the content of the rounds it was learned from. */
import type { PreparedBike } from '../../advice/prepared-bike.ts';
import type { BikeSheet } from '../../bike/sheet.ts';
import type { Round } from '../../casework/case.ts';
import { keepShift, shiftOf } from '../../casework/rider.ts';
import type { Model } from '../../diagnosis/model.ts';
import type { Io } from '../../host/io.ts';
import { ofBike } from './kept-bike.ts';

/** Learns it, or takes it from an earlier start; from then on `shiftOf` has it at once. */
export async function knowRider(
  io: Io,
  model: Model,
  before: BikeSheet,
  bench: PreparedBike,
  earlier: readonly Round[],
): Promise<void> {
  if (earlier.length < model.rules.numbers.rider.from) return;
  const what = JSON.stringify(['rider', model.rules.digest, earlier]);
  const shift = await ofBike(io, before, what, isShift, async () => shiftOf(model, bench, { earlier }));
  keepShift(model, bench, earlier, shift);
}

const isShift = (kept: unknown): kept is number => typeof kept === 'number' && Math.abs(kept) <= 2;

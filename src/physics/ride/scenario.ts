/** What a situation is that a bike is put through, and which there are. */
import type { BikeKind } from '../../bike/sheet.ts';
import type { Staged } from '../bike/stages.ts';

export interface Scenario {
  readonly id: ScenarioId;
  /** a mechanic's words */
  readonly name: string;
  readonly about: string;
  /** m/s for each kind of bike; scaled by the caller's pace */
  readonly speed: Readonly<Record<BikeKind, number>>;
  /** @param step of the integrator, s */
  stage(wheelbase: number, speed: number, step: number): Staged;
}

export const SCENARIO_IDS = [
  'row',
  'lone-hit',
  'big-hit',
  'square-edge',
  'edges',
  'landing',
  'lip',
  'berm',
  'steep',
  'rollers',
  'chatter',
  'braking',
  'kerb',
  'pedalling',
] as const;
export type ScenarioId = (typeof SCENARIO_IDS)[number];

/** Hardtails, cross-country and e-bikes are ridden over it as a trail bike is; judgement. */
export const at = (trail: number, enduro: number, downhill: number): Scenario['speed'] => ({
  hardtail: trail,
  'cross-country': trail,
  trail,
  enduro,
  downhill,
  'e-bike': trail,
});

/** The physics of a bike's suspension: pure computations, SI inside. */
export type { Bike } from './bike/bike.ts';
export { bikeFromSheet, defaultBike, type Fits } from './bike/from-sheet.ts';
export { fitDampers, type CircuitFit, type FittedDamper } from './fit.ts';
export { METRIC_IDS, METRICS, type Metric } from './metrics/metrics.ts';
export { SCENARIO_IDS, type Scenario, type ScenarioId } from './ride/scenario.ts';
export { SCENARIOS } from './ride/scenarios.ts';
export { defaultSheet } from './usual-bikes.ts';
export { makeGround, type Ground } from './metrics/measure.ts';
export { changed, predict, type PredictedMetric, type Prediction } from './predict.ts';
export { sweep, type Often, type Sweep, type Swept } from './sweep.ts';
export { forceCurve, travelCurve, type ForceCurve, type TravelCurve } from './plots.ts';
export { crossTalk, feelableClicks, fixShare, type ClickEffect } from './cross-talk.ts';
export {
  AGREED,
  audit,
  type Asked,
  type CauseInModel,
  type Finding,
  type RuleClaim,
  type Verdict,
} from './audit.ts';
export { drawsOf, plausibleBikes, type Draw } from './draws.ts';
export { reaches, settingName } from './settings.ts';
export { atTemperature, REFERENCE_CELSIUS } from './temperature.ts';
export { standingOn, type Standing } from './slope.ts';
export { coilShare, pressureShare, type ToldSag } from './told-sag.ts';
export { springCorrection, type SpringCorrection } from './start-spring.ts';

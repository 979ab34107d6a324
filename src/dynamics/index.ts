/** The physics of a bike's suspension: pure computations, SI inside. */
export type { Bike, Body, EndModel, Friction, Knob } from './bike.ts';
export { circuitThrough, damperForce, damperSlope, damperSpeed, type DamperCircuit } from './damper.ts';
export { springForce, springStiffness, type SpringModel } from './spring.ts';
export { defaultSheet } from './defaults.ts';
export { bikeFromSheet, defaultBike, type Fits } from './from-sheet.ts';
export { fitDampers, type CircuitFit, type FitResidual, type FittedDamper } from './fit.ts';
export { METRIC_IDS, METRICS, type Metric } from './metrics.ts';
export { SCENARIO_IDS, SCENARIOS, type Scenario, type ScenarioId } from './scenarios.ts';
export { makeGround, measure, metricsOf, type Ground } from './measure.ts';
export {
  changed,
  predict,
  type Changed,
  type ChangeRefused,
  type Effect,
  type PredictedMetric,
  type Prediction,
} from './predict.ts';
export { KICKING, PACKING, sweep, type Sweep, type Swept, type SweptMetric } from './sweep.ts';
export { forceCurve, travelCurve, type ForceCurve, type TravelCurve } from './plots.ts';
export {
  crossTalk,
  feelableClicks,
  fixShare,
  GOVERNED,
  partnerOf,
  WEBER,
  type ClickEffect,
} from './cross-talk.ts';
export {
  auditRule,
  makeAuditor,
  type Auditor,
  type CauseInModel,
  type Finding,
  type RuleClaim,
} from './audit.ts';
export { reaches, SETTINGS, settingName } from './settings.ts';
export { atTemperature, orificeFactor, REFERENCE_CELSIUS, viscosity } from './temperature.ts';
export { standingOn, type Standing } from './slope.ts';

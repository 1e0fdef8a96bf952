export {
  fitSprintCurve,
  parameterVariance,
  type Prior,
  type SprintFit,
  type SprintFitOptions,
  type TimedDistance,
} from './fit-sprint-curve.ts';
export {
  accelerationAt,
  distanceAt,
  distanceGradient,
  type SprintCurve,
  speedAt,
  timeAtDistance,
} from './sprint-curve.ts';

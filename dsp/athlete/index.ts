export { athleteBaseline, type Baseline, type BaselineOptions, type BaselineValue } from './baseline.ts';
export { type ChangePoint, changePoints } from './change-points.ts';
export { type DropOff, type StopRule, sessionDropOff } from './drop-off.ts';
export { judgeRepetition, type RepetitionVerdict } from './judge-repetition.ts';
export { type Prior, variationPrior } from './priors.ts';
export {
  type AsymmetryIndices,
  asymmetryIndices,
  compareSides,
  type SideDifference,
  sideDifference,
} from './side-difference.ts';
export { type SessionPoint, sessionPoints, type Trend, trend } from './trend.ts';
export { type VariationComponents, variationComponents } from './variation.ts';

export { athleteBaseline, type Baseline, type BaselineOptions, type BaselineValue } from './baseline.ts';
export { type BlockChange, blockChange, type Level } from './block-change.ts';
export { type ChangePoint, changePoints } from './change-points.ts';
export { type DropOff, type StopRule, sessionDropOff } from './drop-off.ts';
export { judgeRepetition, type RepetitionVerdict } from './judge-repetition.ts';
export { type NeighbourDifference, neighbourDifference, type SidedValue } from './neighbour-difference.ts';
export { type Prior, priorVariances, variationPrior } from './priors.ts';
export {
  type AsymmetryIndices,
  asymmetryIndices,
  compareSides,
  type SideDifference,
  sideDifference,
} from './side-difference.ts';
export { type SessionPoint, sessionPoints, type Trend, trend } from './trend.ts';
export { type VariationComponents, variationComponents } from './variation.ts';

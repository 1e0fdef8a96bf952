export { brokenIntervals, typicalInterval } from './broken-intervals.ts';
export { derivative } from './derivative.ts';
export { correctedCutoff, designHighPass, designLowPass } from './design.ts';
export { filterForward, filterForwardBackward, paddingOf } from './filter-forward-backward.ts';
export { filterChannelSegments, filterSegments } from './filter-segments.ts';
export { toUniformGrid, type UniformGrid } from './resample.ts';
export { gainAt, halfPowerFrequency, type Section } from './section.ts';
export {
  dominantFrequency,
  fourierTransform,
  hannWindow,
  nextPowerOfTwo,
  powerBandwidth,
  powerDensity,
  type Spectrum,
} from './spectrum.ts';

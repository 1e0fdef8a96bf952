import type { StrideFrame } from '../stride-frame.ts';
import type { FootFeatures } from './foot-features.ts';
import type { ShankFeatures } from './shank-features.ts';

/** One stride that a landing is looked for in. */
export interface LandingStride {
  frame: StrideFrame;
  features: FootFeatures | ShankFeatures;
}

import type { StrideFrame } from '../stride-frame.ts';

/** What a sensor on any segment of the leg shows of one contact; fractional indices of the frame's columns. */
export interface SegmentFeatures {
  /** The leg turns from forward to backward. */
  turn: number;
  /** Where touchdown may lie. */
  landing_from: number;
  landing_to: number;
  /** The same for a landing that the segment's turn alone tells. */
  soft_from: number;
  soft_to: number;
  /** Middle of the contact, roughly. */
  mid: number;
}

/** One stride that a landing is looked for in. */
export interface LandingStride {
  frame: StrideFrame;
  features: SegmentFeatures;
}

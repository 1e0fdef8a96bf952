/**
 * Tunables for sensors without a gyroscope; part of the one settings table (settings.ts). 'Strides' are shares of the stride
 * time. Offsets of features against the force plate and their spreads between runners: Fukuchi et al. 2017, PeerJ 5:e3298
 * (CC BY 4.0) and Davis 2022 (MIT), as in settings.ts.
 */
export const ACCELEROMETER_SETTINGS = {
  /** Running shakes a shoe or shank by more than this (standard deviation of the acceleration's length over `active_s`). */
  active_mps2: 6,
  active_s: 0.8,
  /** The stride time is looked for in stretches of this length: two to five strides. */
  period_window_s: 2.4,
  period_step_s: 0.6,
  shortest_stride_s: 0.36,
  /** Running strides stay below this; walking lies at 0.95 s and above (common practice). */
  longest_stride_s: 0.95,
  /** Thinned to this rate for the stride time. */
  period_rate_hz: 100,
  /** A shorter period counts when its likeness reaches this part of the best one's: two strides are as alike as one. */
  shorter_period_part: 0.85,
  /** Least likeness of a stride to the next one (autocorrelation). */
  least_likeness: 0.45,
  /** Low-pass cut-offs in cycles a stride: 6.5 is 10 Hz at a stride of 0.65 s. */
  cutoff: { anchor: 5.2, jolt: 20, burst: 5.2, slow: 6.5, middle: 13, quick: 26, sharp: 52 },
  /** A stride's anchor reaches this part of the highest ones around it. */
  anchor_part: 0.3,
  /** ... at least this part of the recording's high ones (a jog beside a sprint reaches 0.25) ... */
  least_part: 0.1,
  /** ... and as the last of a run, at least this part of the one before. */
  fading_part: 0.6,
  /** Time between two anchors that still counts as the stride time. */
  stride_tolerance: 0.25,
  /** ... and two anchors lie at least this part of a stride apart. */
  anchor_distance: 0.6,
  /** Least ratio of front-to-back over lengthwise variation of a foot: a swinging leg against a hop on the spot. */
  least_swing: 0.6,
  foot: {
    /** Touchdown features lie within these shares of a stride around the late-swing peak. */
    landing_from: -0.02,
    landing_to: 0.2,
    /** Rough place of touchdown after the anchor, for the windows of toe-off. */
    landing_after_anchor: 0.05,
    /** The backward pull of late contact, and the top after it that marks the foot as free, after that touchdown. */
    pull_from: 0.1,
    top_from: 0.17,
    top_to: 0.6,
    release_longest: 0.22,
    /** The lengthwise push ends around the half-way of that rise. */
    fall_from: -0.06,
    fall_to: 0.08,
    slow_fall: { offset: -0.0487, sd: 0.0075 },
    brake_end: { offset: -0.0436, sd: 0.009 },
    brake_fall: { offset: -0.0314, sd: 0.009 },
    norm_fall: { offset: -0.0233, sd: 0.011 },
    half_rise: { offset: 0.0095, sd: 0.0135 },
    toe_fall: { offset: -0.0094, sd: 0.0075 },
    toe_fall_quick: { offset: -0.0125, sd: 0.007 },
  },
  shank: {
    /** With a gyroscope: where the burst of a landing may lie about the leg's turn backward. */
    burst_before: 0.05,
    burst_after: 0.27,
    rise_before: 0.1,
    rise_after: 0.02,
    begin: { offset: 0.0089, sd: 0.0075 },
    slow_rise: { offset: -0.0172, sd: 0.0075 },
    rise: { offset: -0.0192, sd: 0.0075 },
    trough: { offset: 0.0089, sd: 0.0085 },
    toe_off_from: 0.12,
    toe_off_to: 0.34,
    toe_off_reach: 0.25,
    /** The data behind it have strides of 0.6 s and more; the shank's acceleration in sprints shows no such plain end of the push. */
    shortest_stride_s: 0.56,
    /** Contacts outside these shares of a stride are a push-off mistaken for another. */
    shortest_contact: 0.13,
    longest_contact: 0.46,
    /** Half-way down from the lengthwise push to its end. Wide: between runners, 12 ms at a stride of 0.65 s. */
    half_fall: { offset: 0.0441, sd: 0.019 },
  },
  /** Strides on either side that say where a touchdown should be, and how far from there its features may lie, in strides. */
  neighbours: 5,
  settle: 0.025,
  /** Contact as a share of the stride scatters by 0.01 between neighbouring strides; beyond this it is misread. */
  most_scatter: 0.03,
};

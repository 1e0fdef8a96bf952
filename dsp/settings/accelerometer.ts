/**
 * Tunables for sensors without a gyroscope; part of the one settings table (settings.ts). 'Strides' are shares of the stride
 * time. Offsets of features against the force plate and their spreads between runners: Fukuchi et al. 2017, PeerJ 5:e3298
 * (CC BY 4.0) and Davis 2022 (MIT), as in settings.ts.
 */
export const ACCELEROMETER_SETTINGS = {
  /** Running shakes a shoe or shank by more than this (standard deviation of the acceleration's length over `active_s`). */
  active_mps2: 6,
  /** About a stride. */
  active_s: 0.8,
  /** The stride time is looked for in stretches of this length: two to five strides. */
  period_window_s: 2.4,
  /** A quarter of the stretch. Own choice. */
  period_step_s: 0.6,
  /** Shortest stride of a human sprint is 0.40 s (5 steps a second); a tenth of room. */
  shortest_stride_s: 0.36,
  /** Running strides stay below this; walking lies at 0.95 s and above (common practice). */
  longest_stride_s: 0.95,
  /** The plane of leg swing is looked for below this: impacts have directions of their own. */
  plane_cutoff_hz: 6,
  /** Low-passed and thinned to this for the stride time. */
  period_cutoff_hz: 10,
  /** Ten times the low-pass. */
  period_rate_hz: 100,
  /** A shorter period counts when its likeness reaches this part of the best one's: two strides are as alike as one. */
  shorter_period_part: 0.85,
  /** A stride time this many times the usual one is two strides where half of it is likely as well, at least this part. */
  double_from: 1.7,
  /** Own choice: half as alike as the double one. */
  half_period_part: 0.5,
  /** Least likeness of a stride to the next one (autocorrelation). */
  least_likeness: 0.45,
  /** Low-pass cut-offs in cycles a stride: 6.5 is 10 Hz at a stride of 0.65 s. */
  cutoff: { anchor: 5.2, jolt: 20, burst: 5.2, slow: 6.5, mid: 9, middle: 13, quick: 26, sharp: 52 },
  /** A stride's anchor reaches this part of the highest ones around it. */
  anchor_part: 0.2,
  /** ... at least this part of the recording's high ones (a jog beside a sprint reaches 0.25) ... */
  least_part: 0.1,
  /** ... and as the last of a run, at least this part of the one before. */
  fading_part: 0.45,
  /** Time between two anchors that still counts as the stride time. */
  stride_tolerance: 0.25,
  /**
   * Anchors form a chain: a gap that differs from the stride time by a third costs as much as a full peak, a break somewhat
   * less; two anchors lie at least the given part of a stride apart.
   */
  chain: { gap_weight: 8, break_cost: 0.8, anchor_distance: 0.6 },
  /** Least ratio of front-to-back over lengthwise variation of a foot: a swinging leg against a hop on the spot. */
  least_swing: 0.6,
  /** Running against jumping, hopping and walking, by means over a stride and over the middle of the stance. */
  gait: {
    /** A stride, about its landing's burst: from here ... */
    stride_before: 0.1,
    /** ... to here. */
    stride_after: 0.9,
    /** The middle of the stance, as shares of the stride: from here ... */
    stance_from: 0.1,
    /** ... to here. Own choice. */
    stance_to: 0.35,
    /** Strides on either side that are averaged over. Own choice. */
    neighbours: 2,
    /** Gravity is 9.8; real jogs reach 13.8 (shoe) and 12.5 (ankle), slower and curved ones 11. Jumps and hops stay below 10.5. */
    least_pull_mps2: { foot: 11.5, shank: 11.2 },
    /** Real jogs reach 11.3 (shoe) and 15 (ankle). Walking stays at gravity. */
    least_stance_mps2: { foot: 10.9, shank: 12.2 },
    /** Part of the limit that a stride itself has to reach beside its neighbours' mean. Own choice. */
    own_part: 0.95,
  },
  /** The acceleration across is higher over the last part of the swing than over late contact; shares of a stride about the landing's burst. */
  facing: { swing_before: 0.23, stance_from: 0.12, stance_to: 0.42 },
  /**
   * A landing is a burst of change of acceleration; the middle between these parts of its energy dates it. Beginning and
   * end of a foot's: one late where the other is early (heel or forefoot first).
   */
  burst: {
    /** Where a foot's burst lies after the late-swing peak: before the burst of its push-off. */
    after_anchor_from: -0.05,
    /** Later lies the burst of push-off. */
    after_anchor_to: 0.25,
    /** How far from its peak a burst reaches, in strides. Own choice. */
    reach: 0.1,
    /** The parts of its energy; of a shank's the second half is left out. Set on the same recordings. */
    parts: { foot: [0.2, 0.8], shank: [0.2, 0.5] },
    /** As measured on plates: mean over runners, and the spread between them (head of this file). */
    middle: { foot: { offset: -0.0211, sd: 0.0047 }, shank: { offset: -0.0404, sd: 0.0125 } },
    /** A slow sensor smears the burst: so much of a sample interval is uncertain on top. */
    intervals: 0.5,
  },
  /**
   * Sharp onsets lie within `reach` of the burst's own date (strides), and are no better than these. The jolt takes a few
   * milliseconds from the sole to the shank.
   */
  onset: {
    /** See above. */
    reach: 0.07,
    /** The jolt's way from the sole to the sensor. */
    offset_s: { foot: 0, shank: -0.002 },
    /** Somewhat more than of sharp onsets with a gyroscope (settings.ts). Own choice. */
    least_sd_s: { foot: 0.0015, shank: 0.0025 },
    /** Picking the onset between samples is good to about this part of an interval. */
    least_sd_samples: 0.3,
  },
  /**
   * A touchdown further than this from where its neighbours have theirs, and by the margin less regular in time, is theirs
   * instead, with this uncertainty; a first or last one only when it is far off. All in strides.
   */
  from_neighbours: { most_apart: 0.035, margin: 0.01, sd: 0.015, far: 0.1, far_sd: 0.04 },
  /**
   * Where toe-off's features may lie after touchdown, and what makes one look like toe-off: a steep fall, the pull across, and
   * a usual share of the stride (contacts take 0.22 in a sprint to 0.4 in a slow jog). Weights by multinomial fit to the
   * recordings named above, the same played 1.5 times faster, and simulated sprints.
   */
  toe_off: {
    /** Strides on plates were longer than this; two generators of sprints (0.47 s) differ from them by 4 and 11 ms on the foot, 7 and 13 on the shank. */
    measured_stride_s: 0.65,
    /** See `measured_stride_s`. */
    beyond_sd_s: 0.016,
    /** Where it may lie, and its usual share of the stride, by the same fit. */
    foot: { from: 0.13, to: 0.55, usual: 0.25, usual_per_s: 0.5 },
    /** The same of a shank. */
    shank: { from: 0.2, to: 0.6, usual: 0.38, usual_per_s: 0 },
    /** By the same fit: how much a steep fall speaks for toe-off. */
    fall_weight: { foot: 0.085, shank: 0.1 },
    /** By the same fit: how much the pull across speaks for it. */
    pull_weight: { foot: 3, shank: 4 },
    /** By the same fit: how much a usual share speaks for it. */
    share_weight: { foot: 160, shank: 125 },
    /** Stride time that the usual share is given for; it grows with the stride time by `usual_per_s`. */
    usual_at_s: 0.5,
    /** No stride follows within this many stride times. */
    pause: 1.4,
    /** What a feature is measured by: the spread of its column over this part of the stride after touchdown. */
    spread_from: 0.1,
    /** Up to the late swing, whose own peak would widen it. */
    spread_to: 0.8,
  },
  /**
   * From stride to stride the share of the stride that a contact takes changes by less than 0.015; a change of 0.04 and more
   * is a start or a stop and costs no more. Another reading nearly as likely leaves toe-off empty.
   */
  path: { step: 0.015, most: 4, same: 0.03, least_margin: 2.5 },
  foot: {
    /** About the steepest fall of the push, the pull across lets go: its largest rise over this length. */
    release_from: 0.1,
    /** See `release_from`. */
    release_to: 0.01,
    /** See `release_from`; in strides. */
    release_length: 0.06,
    /** How far from the slow fall the quick one is looked for, in strides. Own choice. */
    quick_reach: 0.03,
    /** Between what plates and simulated sprints show: 1 ms late on the one, 3 ms early on the other. */
    toe_fall: { offset: -0.008, sd: 0.012 },
    /** As measured on plates: mean over runners, and the spread between them (head of this file). */
    toe_fall_quick: { offset: -0.0108, sd: 0.0115 },
    /** As measured on plates: mean over runners, and the spread between them (head of this file). */
    pull_release: { offset: 0.0107, sd: 0.016 },
  },
  shank: {
    /** With a gyroscope: where the burst of a landing may lie about the leg's turn backward. */
    burst_before: 0.05,
    /** See `burst_before`; as the window of a gyroscope's landing (settings.ts). */
    burst_after: 0.27,
    /** The rise is looked for from this long before the burst, in strides ... */
    rise_before: 0.1,
    /** ... to this long after. Own choice. */
    rise_after: 0.02,
    /** The jolt is steepest within this of where the burst of change dates the landing. */
    jolt_before: 0.025,
    /** See `jolt_before`. */
    jolt_after: 0.06,
    /** Its beginning is looked for from this long before, in strides ... */
    begin_before: 0.06,
    /** ... to this long after. Own choice. */
    begin_after: 0.02,
    /** The slow rise is looked for within this of it. Own choice. */
    slow_reach: 0.06,
    /** As measured on plates: mean over runners, and the spread between them (head of this file). */
    begin: { offset: 0.0089, sd: 0.0105 },
    /** As measured on plates: mean over runners, and the spread between them (head of this file). */
    slow_rise: { offset: -0.0172, sd: 0.0105 },
    /** As measured on plates: mean over runners, and the spread between them (head of this file). */
    rise: { offset: -0.0192, sd: 0.0105 },
    /** As measured on plates: mean over runners, and the spread between them (head of this file). */
    trough: { offset: 0.0089, sd: 0.0115 },
    /** The shank is pulled back at these parts of the contact. */
    pulled_at: [0.9, 1.1],
    /** Toe-off lies at this part of the way from touchdown to the fall ... */
    fold_fall: { part: 0.815, sd: 0.02 },
    /** ... and this far along to the trough of the pull, which is sought about its usual place; spreads in strides. */
    pull_trough: { part: 1.1, place: -0.027, reach: 0.07, sd: 0.0145 },
  },
  /** Strides on either side that say where a touchdown should be, and how far from there its features may lie, in strides. */
  neighbours: 5,
  /** See `neighbours`. */
  near_usual: 0.025,
};

/**
 * Every tunable of the signal processing, in one table, each with its reason. Times in seconds, frequencies in hertz,
 * rates in rad/s, accelerations in m/s2.
 */
export const DEFAULT_SETTINGS = {
  grid: {
    /** Losses up to this long are bridged by straight lines: shorter than the shortest event that matters (an impact). */
    bridge_s: 0.012,
    /** Below this rate a contact of 100 ms holds too few samples for a contact time. Reference: 06 table 6c. */
    rate_for_contact_time_hz: 80,
    /** A value this close to the full scale counts as clipped. */
    clip_fraction: 0.995,
  },
  axis: {
    /** Slower rotation than this carries no leg swing and stays out of the sagittal axis. */
    active_rate_radps: 2,
    /** The swing's own rotation and rise lie below this; impacts above it would only add noise to the sign. */
    cutoff_hz: 20,
    /** Rate the columns are thinned to for finding the sign: five times the cut-off. */
    rate_hz: 100,
    /** Two to four strides: long enough for 'up' to be the mean acceleration, short enough for little drift. */
    window_s: 2,
  },
  swing: {
    /** Low-pass that leaves one swing peak a stride: stride rates reach 2.6 Hz, knee and ankle ripple starts above 8 Hz. */
    cutoff_hz: 6,
    /** Shortest stride of a human sprint is 0.40 s (5 steps/s); shorter distances between peaks are ripple. */
    min_stride_s: 0.33,
    /** Longest stride of running; longer ones are walking or rest. Common practice: slow jogging at 75 strides/min. */
    max_stride_s: 1.0,
    /** Smallest swing peak of running. Walking reaches about 6 rad/s at the foot and 4 at the shank. */
    min_peak_radps: { foot: 4.5, shank: 4 },
    /** A swing peak lower than this part of the usual one (95th percentile) is not a running stride. */
    min_peak_fraction: 0.35,
  },
  running: {
    /** Largest duty factor of running: above one half there is no flight (definition of running). */
    max_duty_factor: 0.55,
    /** Accepted contact times: 60 ms is below the shortest of any sprinter, 450 ms above slow jogging. */
    min_contact_s: 0.06,
    max_contact_s: 0.45,
    /** A repetition has at least this many contacts of one foot. */
    min_contacts_per_foot: 2,
    /** Two contacts of one foot further apart than this are of two repetitions. */
    max_contact_gap_s: 1.4,
  },
  /** Windows as shares of the stride time. */
  foot_windows: {
    landing: 0.13,
    impact_before: 0.065,
    impact_after: 0.03,
    shortest_contact: 0.085,
    push: 0.05,
  },
  shank_windows: { landing: 0.145, impact_before: 0.06 },
  events: {
    /** Low-pass of the columns that features are picked in, as cycles a stride: 25 Hz in a jog, 40 Hz in a sprint. */
    cutoff_per_stride: 17.5,
    slow_cutoff_per_stride: { foot: 10.5, shank: 8.5 },
    margin_s: 0.12,
    /** Zero-phase low-pass of rate and acceleration before picking events; keeps the rise of an impact (10 to 20 ms). */
    cutoff_hz: 60,
  },
};

export type AnalysisSettings = typeof DEFAULT_SETTINGS;

/**
 * Tunables of the checks of how a sensor was worn: on which segment, on which side, how firmly. Measured on the recordings with
 * force plates (seven runners, 34 foot and 34 shank sensors by markers; Fukuchi et al. 2017, Davis 2022, Dorn et al. 2012), nine
 * jogs with a real shoe sensor (Wagstaff et al. 2021) and simulated running. Every limit lies outside all that was seen of
 * sensors worn as stated, and a finding must pass it by `surely` standard uncertainties of its own.
 */
export const MOUNTING_SETTINGS = {
  /** Standard uncertainties by which a value must pass its limit: 2.3 % of chance findings, one-sided. */
  surely: 2,
  segment: {
    /** Low-pass of the rate, cycles a stride: the same as the detector's for the foot's slow shape. */
    cutoff_per_stride: 10.5,
    /** Fewer strides make no mean to decide by. Own choice. */
    least_strides: 4,
    /** Swings slower than this part of the fast ones are walking, turning round, starting. */
    least_peak_part: 0.6,
    /** Where no running was found as the sensor is said to be worn, the legs must swing by turns: half a stride apart. */
    alternate_from: 0.35,
    /** As far on the other side of one half. */
    alternate_to: 0.65,
    /** Points that the backward turn of a stride is read at. */
    points: 40,
    /** Part of the backward turn in which a foot lies flat and a shank goes over it. */
    flat_from: 0.2,
    /** Later the heel of a foot begins to rise. */
    flat_to: 0.325,
    /**
     * Rate there against the mean of the backward turn. Worn on a foot: 0.07 to 0.30 with force plates, up to 0.40 in the slowest jogs, up
     * to 0.53 in a crude simulation; on a shank: 0.74 to 1.7. Runners' means scatter by 0.09 about 0.16 on the foot, at jogs as slow as
     * 2.5 m/s too: a false alarm is to be expected in 0.3 % of runners (Student's t, five degrees of freedom).
     */
    shank_above: 0.6,
    /** No shank of a runner comes below 0.74, and none of a crude simulation below 0.41. */
    foot_below: 0.35,
  },
  side: {
    /** More make the mean no better than runners differ. Own choice. */
    most_strides: 24,
    /** Fewer have no standard deviation worth the name. Own choice. */
    least_strides: 3,
    /** Longer strides are walking (common practice). */
    longest_stride_s: 0.95,
    /** Shares of the contact over which a mean rate is taken. */
    foot: { landing: [0, 0.22], push: [0.4, 0.95] },
    /** The same for a shank. */
    shank: { roll: [0.6, 1], turn: [0.75, 1] },
    /** Usual size, in the peak swing rate, of what a right sensor does: means over seven runners. */
    usual: { foot_push: 0.105, foot_landing: 0.35, shank_roll: 0.155, shank_turn: 0.185 },
    /** Swapped: turned round by this part of the usual size. Runners' means scatter by 0.12 (foot) and 0.28 (shank) about 1, so that
     * a false alarm is to be expected in 0.002 % and 0.2 % of runners (Student's t, six degrees of freedom). */
    swapped_below: -0.35,
    /** From this part on the side is as stated. */
    right_above: 0.35,
  },
  ringing: {
    /** Spectra of half a second tell a resonance of 28 Hz (8 Hz wide) from its surroundings. */
    segment_s: 0.5,
    /** More only costs time. Own choice. */
    longest_s: 8,
    /** Less leaves the spectrum to chance. Own choice. */
    least_s: 1.5,
    /** Running averages over this width take the chance out of the spectrum. */
    smooth_hz: 3,
    /** Below it the leg's own motion would be taken for ringing. Own choice. */
    from_hz: 12,
    /** Above, ringing is faster than what the detector's low-passes keep (25 Hz in a jog, 39 Hz in a sprint). */
    to_hz: 32,
    /** The level below is sought from here up to the resonance over this factor; the level above, down to as many times it. */
    low_factor: 1.9,
    /** See `low_factor`. */
    high_factor: 1.7,
    /** A resonance stands out by this much below and above: firm sensors reach 3 dB and 5 dB on real runners. */
    rise_db: 4,
    /** See `rise_db`: twice the 5 dB of firm sensors. */
    fall_db: 10,
    /** Width 3 dB below the peak, as a share of its frequency: 0.3 to 0.5 for a damping ratio of 0.15. */
    widest: 0.55,
    /** Within the leg's own motion: what follows the leg falls by less than 11 dB from here to `high_factor` times as fast; on a
     * strap of 12 to 18 Hz it falls by 15 dB and more. */
    break_from_hz: 11,
    /** See `break_from_hz`. */
    break_to_hz: 18,
    /** See `break_from_hz`: between the two. */
    break_db: 13,
  },
  turning: {
    /** Strides on either side that a turn must separate. */
    least_strides: 5,
    /** Longer strides are walking (common practice). */
    most_stride_s: 1.0,
    /** Slower stretches than this part of the fast ones are walking or standing, whose axis is another. */
    least_rate_part: 0.6,
    /** Axes of strides of firm sensors drift by up to 5 degrees with speed. */
    limit_deg: 12,
    /** Runners on tight curves scatter from stride to stride: so many times that scatter is allowed as well. */
    scatter_factor: 3,
  },
};

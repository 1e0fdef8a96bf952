import type { TimingMethod } from '../../shared/words.ts';

/**
 * Every tunable of speed, step length, angles and stiffness, each with its reason. A field that ends in `_u` is a standard
 * uncertainty; `share` means as a share of the value. Recordings named here: treadmills with force plates (Fukuchi 2017,
 * doi 10.7717/peerj.3298; Davis 2022), a shoe sensor beside motion capture (Wagstaff 2021, doi 10.21227/v1z6-9z84).
 */
export const STRIDE_SETTINGS = {
  rest: {
    /** Part of the contact in which the foot can lie still: after the slap of landing, before the heel rises. */
    earliest_share: 0.15,
    /** Later the heel rises. */
    latest_share: 0.7,
    /** Half width of the window whose mean rotation is compared: a share of the contact, at most this long. */
    half_width_share: 0.15,
    /** In long contacts the foot does not lie still for a share of them. */
    half_width_s: 0.03,
  },
  foot: {
    /** A longer way to the next contact of the foot means that one is missing between. Slow jogging: 1 s a stride. */
    longest_stride_s: 1.2,
    /** Strides further apart leave a stretch that nobody measured; from the first movement to the first rest 0.5 s pass. */
    longest_break_s: 0.7,
    /** At its slowest the foot still rolls forward, the sensor this high above the pivot. Common practice: 5 to 8 cm. */
    roll_height_m: 0.055,
    /** See `roll_height_m`. */
    roll_height_m_u: 0.02,
    /** Half width of the window that the rate of rolling is a mean of. */
    roll_window_s: 0.015,
    /**
     * Beyond that the foot is never quite at rest. This and `length_share_u` are the likeliest of 3700 strides on belts, the same played twice
     * as fast, and the shoe sensor's: with both found from all other runners, 96.4, 95.7 and 92.9 % of the 95 % intervals hold the left-out
     * runners, none below 87 % (`npm run validate:strides -- --fit`).
     */
    rest_speed_mps_u: 0.012,
    /** Scale and mounting errors of one stride; see `rest_speed_mps_u`. */
    length_share_u: 0.0138,
    /** What all strides of all sensors share: means of 33 feet and of the shoe sensor lie -1.0 to +2.0 % off, 1.0 on average. */
    common_share_u: 0.015,
    /** Where an impact sits in the stride, from its end, as a share: what it adds to the velocity counts from there. */
    impact_lever_share: 0.35,
    /** A clipped sample misses about this share of full scale. Common practice. */
    clipped_share_u: 0.5,
    /** Clipped for longer, the accelerometer missed what counts: simulated sprints at 16 g, wrong by 26 % and more. */
    longest_clipping_s: 0.02,
    /** Samples lost in a row: longer than this no straight line stands for them. */
    longest_loss_s: 0.03,
    /** How far such a line may be off on average. Common practice: half the swing's acceleration. */
    bridge_mps2_u: 30,
    /** Height that does not come back is missing along the way too: 0.25 to 0.35 of it in simulated sprints. */
    rise_share_u: 0.25,
    /**
     * A greater rise than this part of the stride, or these metres of a short one, is no ground that people run on (15 % is a
     * steep hill) but an error: two such strides of 158 of the shoe sensor were wrong by 14 and 34 %.
     */
    greatest_rise_share: 0.15,
    /** The part alone would be too strict for steps shorter than 0.2 m. */
    greatest_rise_m: 0.03,
    /** A mean acceleration further from gravity than this share is no stride from rest to rest. */
    gravity_tolerance_share: 0.15,
    /**
     * How much the change of speed differs from step to step, m/s: 0.1 in a start, 0.5 where a sprinter slows behind the line
     * (2 to 3 m/s2, common practice).
     */
    speed_bend_mps_u: 0.2,
  },
  foot_shape: {
    /** The instant that zeroes pitch and gives progression, as a share of contact (shared/fields.ts). */
    flat_share: 0.4,
    /** The push: from here to toe-off the foot turns about the ball. */
    push_from_share: 0.6,
    /**
     * The line of the metatarsal heads is oblique: at right angles to it points further outward than the long axis. 7.4 on
     * average over 32 feet against markers on heel and forefoot, SD 3.4 (recordings above).
     */
    obliquity_deg: 7,
    /** Against markers good to 2 deg: -0.4 +- 1.1 at touchdown, -0.2 +- 0.9 at toe-off. Same recordings. */
    pitch_deg_u: 1.5,
    /** Where the vertical is taken from the foot's other contacts: they lie within 1 to 2 deg of each other. */
    other_rest_pitch_deg_u: 2.5,
    /** A gyroscope's scale error. Common practice. */
    scale_share_u: 0.01,
    /** Offset of a foot; the scatter from step to step is 0.5 deg. Same recordings. */
    progression_deg_u: 3.5,
  },
  swing_shape: {
    /** Peaks are read after this low-pass: a single noisy sample is no peak. Common practice, 20 to 60 Hz. */
    peak_cutoff_hz: 50,
    /** A segment that turns out of the mean plane of swing is short by some per cent. */
    axis_share_u: 0.03,
    /** Shank rotation over contact against markers: -0.8 +- 0.9 deg of 40. Same recordings. */
    angle_deg_u: 1.2,
  },
  shank: {
    /** Quiet standing: shorter rests, or less quiet ones, are no posture. */
    standing_s: 1,
    /** Largest rotation of somebody who stands. Own choice. */
    still_radps: 0.25,
    /** As for the rate. Own choice. */
    still_mps2: 0.6,
    /** Standing, the shank leans forward: the weight lies in front of the ankle. Common practice: about 5 degrees. */
    standing_lean_deg: 5,
    /** See `standing_lean_deg`. */
    standing_lean_deg_u: 3,
    /** A rest that ends this shortly before the first movement is the start's own posture. */
    start_posture_s: 1.5,
    /** Where in a contact the ankle is taken to be slowest, as a share, and what its speed there may change by. */
    slowest_share: 0.4,
    /** See `slowest_share`. */
    ankle_speed_mps_u: 0.3,
    /** A mean acceleration further from gravity than this share tells no vertical. */
    gravity_tolerance_share: 0.25,
  },
  timing: {
    /**
     * Of one time, by the way it was taken. Hand: SD of hand minus electronic, 0.07 to 0.08 s (Mayhew 2010, doi
     * 10.1519/JSC.0b013e3181c08860; Mann 2015, doi 10.1519/JSC.0000000000000941). Others: common practice; single beams
     * are broken by an arm or a thigh before the trunk.
     */
    time_s_u: {
      /** SD of hand minus electronic times, as above. */
      hand: 0.08,
      /** Common practice, as above. */
      touch_pad_beam: 0.01,
      /** Common practice, as above. */
      beam: 0.015,
      /** Common practice: read to the hundredth. */
      gun_photo_finish: 0.005,
      /** Common practice, as above. */
      motion_start: 0.015,
      /** Own choice: somewhat worse than every device above. */
      other: 0.02,
    } satisfies Record<TimingMethod, number>,
    /**
     * Clock zero minus first movement. By hand the thumb is late: electronic minus hand 0.22 to 0.31 s (Mann 2015; Mayhew
     * 2010). Gun: reactions of 0.146 s (Berlin 2009, Graubner and Nixdorf 2011) and 0.194 s (Zagreb 2011, Coh 2018). Gate:
     * 0.3 to 0.5 m ahead of the athlete (common practice). Late trigger: Haugen and Buchheit 2016, Sports Med 46:641-656.
     */
    shift: {
      /** None by definition; the spread is common practice. */
      first_movement: { value: 0, u: 0.02 },
      /** Middle of the two means above. */
      hand: { value: 0.26, u: 0.08 },
      /** Between the two championships' means, with their spread. */
      gun: { value: -0.17, u: 0.04 },
      /** What 0.3 to 0.5 m take from standing. */
      gate: { value: 0.3, u: 0.2 },
      /** Common practice. */
      rolling: { value: 0.8, u: 0.5 },
      /** Source above. */
      late_trigger: { value: 0.1, u: 0.25 },
    },
    /** Three times and more that leave the curve by more than so many of their uncertainties are of another clock. */
    misfit: 1.2,
    /** Approach to top speed when nothing else tells: 1.22 s (Berlin 2009) to 1.47 s (di Prampero 2005); u relative. */
    tau_s: { value: 1.3, u: 0.25 },
    /** First touchdown after an unseen first movement. Common practice. */
    first_touchdown_s: { value: 0.4, u: 0.1 },
    /** Of a first movement whose uncertainty nobody stated. */
    first_movement_s_u: 0.03,
    /** Nobody has run faster: 12.4 m/s over 10 m (Berlin 2009). Then times or distance are wrong. */
    fastest_mps: 14,
    /** Nor started faster: horizontal force over mass reaches 10 N/kg (Samozino 2016; Morin 2019), a twitchy fit some more. */
    quickest_mps2: 13,
    /**
     * Way of the body over a foot on the ground at speed: 0.8 to 1.3 m in adults (Weyand 2000, J Appl Physiol 89:1991, from
     * memory), in proportion to the leg less in children. Beyond, the time is not of this run.
     */
    contact_length_m: { least: 0.4, most: 1.7 },
    /** Strides of a foot sensor that differ from the times by more than this were not run in them: six times what is usual. */
    scale_limit: 0.09,
    /** A clock is doubted when the strides' scale is off by so many of its uncertainties. */
    scale_misfit: 2,
    /** A typed time is doubted when it lies so many standard uncertainties off what the feet say: one in 400 by chance. */
    doubted_u: 3,
    /** A run that stops so long before its course's end may not have been over that course; by this share as well, was not. */
    short_run_s: 1,
    /** Own choice: a fifth of the course cannot be a matter of when a recording was stopped. */
    short_run_share: 0.2,
    /**
     * How far a sprint leaves the mono-exponential. Between two gates' times the ways over 10 m of Berlin 2009 (Graubner and
     * Nixdorf 2011, New Studies in Athletics 26:19-53) come out wrong by 0.9 to 1.1 % root mean square, 0.5 % of it from times
     * rounded to 0.01 s; de Ruiter and van Dieen 2019 (doi 10.3390/sports7090202) found R2 >= 0.96 of step velocity.
     */
    model_share_u: 0.009,
    /** Where the body is over the line at the start. Common practice. */
    start_place_m_u: 0.1,
    /**
     * Contact time = a speed^-k in acceleration: k 0.6 to 0.75 (Blauberger 2021, Sensors 21:7331, table 1: 163 ms over steps
     * 1 to 5, 118 over 6 to 15, 109 over 16 to 25). Scatter is wide because neighbours deviate together.
     */
    contact_exponent: { value: 0.66, u: 0.1 },
    /** See `contact_exponent`. */
    contact_scatter_share: 0.12,
    /** How much speed changes over a flying course. Common practice: a few per cent. */
    flying_share_u: 0.02,
  },
  kinetics: {
    /** Against 54 force plates in a row, bias below 5 % (Morin 2019, doi 10.1016/j.jbiomech.2019.07.020; Samozino 2016). */
    method_share_u: 0.025,
    /** One gauge beside the track tells the athlete's wind to some 0.5 m/s (Linthorne, from memory); nobody's wind: the rules'
     * 2 m/s for 95 %. */
    wind_mps_u: { gauge: 0.5, unknown: 1 },
    /** Where nobody measured: 20 degrees and 1013 hPa within what training days and low places have. Common practice. */
    temperature_c_u: { measured: 1, unknown: 8 },
    /** See `temperature_c_u`. */
    pressure_hpa_u: { measured: 2, unknown: 20 },
  },
  /** Belt speeds are set, not measured. Common practice. */
  belt_share_u: 0.01,
  stiffness: {
    /** Morin 2005: 0.7 to 6.9 % below force plates. */
    stiffness_share_u: 0.05,
    /** A vertical speed that is not back where it was makes the mean force wrong. Common practice. */
    force_share_u: 0.02,
    /** Leg length where nobody measured it. Source: Winter, Biomechanics and Motor Control of Human Movement. */
    leg_share_of_stature: 0.53,
    /** People of one stature differ in it by some per cent; a tape on the trochanter is good to a centimetre. Common practice. */
    leg_share_u: 0.025,
    /** See `leg_share_u`. */
    leg_length_m_u: 0.01,
    /** Speed that changes by more than this from step to step is no steady running. Own choice. */
    steady_share: 0.03,
  },
};

export type StrideSettings = typeof STRIDE_SETTINGS;

import { ACCELEROMETER_SETTINGS } from './accelerometer.ts';
import { MOUNTING_SETTINGS } from './mounting.ts';
import { STRIDE_SETTINGS } from './strides.ts';

/**
 * Every tunable of the signal processing, in one table, each with its reason. Times in seconds, frequencies in hertz,
 * rates in rad/s, accelerations in m/s2; 'strides' are shares of the stride time, 'contacts' of the contact time.
 *
 * Offsets between a feature and the force plate's instant, and their spreads, come from two open data sets of runners on
 * instrumented treadmills with segment motion from markers: Fukuchi RK, Fukuchi CA, Duarte M (2017) PeerJ 5:e3298
 * (CC BY 4.0; vertical force 50 N; 2.5, 3.5 and 4.5 m/s) and Davis JJ (2022; MIT). They are means over runners, and the
 * spreads are those between runners, not between the steps of one. Written as shares of stride or contact time they hold
 * for shorter contacts by similarity; on sprints they are an extrapolation that the uncertainty carries.
 */
export const DEFAULT_SETTINGS = {
  accelerometer: ACCELEROMETER_SETTINGS,
  strides: STRIDE_SETTINGS,
  mounting: MOUNTING_SETTINGS,
  grid: {
    /** Losses up to this long are bridged by straight lines so that filters run on: the swing survives that; a contact whose
     * event lies in one says so and widens its uncertainty. Longer losses part the recording. */
    bridge_s: 0.06,
    /** A loss this close to an instant widens its uncertainty. */
    loss_reach_s: 0.008,
    /** Clipping this long before a touchdown may hide an earlier one. */
    clip_reach_s: 0.01,
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
    cutoff_hz: 7,
    /** Shortest stride of a human sprint is 0.40 s (5 steps/s); shorter distances between peaks are ripple. */
    min_stride_s: 0.3,
    /** Longest stride looked at: slow walking; longer ones are rest. Running strides stay below 0.85 s. */
    max_stride_s: 1.3,
    /** Smallest swing peak of running. Walking reaches about 6 rad/s at the foot and 4 at the shank. */
    min_peak_radps: { foot: 4.5, shank: 4 },
    /**
     * After the last swing: the least turn from touchdown to toe-off, as a part of what is usual. Last contacts of simulated runs, cut
     * off or not, turn by 0.54 and more; feet that come to rest by 0.40 and less. Between the two.
     */
    least_turn_at_end: 0.5,
  },
  running: {
    /** Running has a flight: one foot is down for less than half of the stride (0.5 is walking's limit, with error). */
    max_duty_factor: 0.5,
    /** The shortest contacts of sprinters take 0.19 of their stride (85 ms of 0.45 s); a slower stride has a longer one. */
    min_duty_factor: 0.13,
    /** Share of the stride from the leg's turn backward to toe-off: up to 0.47 in slow jogs, above 0.58 in walking. */
    max_backward: 0.53,
    /** Accepted contact times: 60 ms is below the shortest of any sprinter, 420 ms above slow jogging. */
    min_contact_s: 0.06,
    /** See `min_contact_s`. */
    max_contact_s: 0.42,
    /** Least turn of the segment over the stride: running 90 degrees and more (foot), 60 and more (shank); hops half of that. */
    min_turn_rad: { foot: 1.1, shank: 0.8 },
    /** Contacts of both feet overlap by at most this part of the shorter one: else it is jumping or walking. */
    max_overlap: 0.3,
    /** Running strides last no longer; slow jogs reach 0.85 s, brisk walks 1.0 s. */
    max_stride_s: 0.93,
    /** A repetition has at least this many contacts of one foot. */
    min_contacts_per_foot: 2,
    /** Each recorded foot has at least this share of a repetition's contacts; hopping has none of the other foot. */
    least_share_per_foot: 0.2,
    /** A sensor that moves more than this part of the other's moves as a running foot does. */
    idle_part: 0.5,
    /** Two contacts of one foot further apart than this are of two repetitions. */
    max_contact_gap_s: 1.4,
  },
  activity: {
    /** In the air a sensor reads less than this; a shoe in swing reads more. */
    fall_mps2: 3,
    /** A fall of 7 cm takes this long (0.5 g t2); shorter dips happen in swinging. Own choice. */
    fall_s: 0.12,
    /** A dropped sensor lands harder than any step: 25 g, or the full scale. */
    blow_mps2: 150,
  },
  quality: {
    /** A contact of 100 ms needs 8 samples for its time (reference: uniform quantisation, 1 / (rate sqrt 6)). */
    rate_for_contact_time_hz: 80,
    /**
     * A contact that fills fewer samples has no contact time: of simulated sprints at 100 Hz touchdown is 10 to 20 ms early, while people on
     * plates at 100 Hz, 20 samples a contact and more, keep their 4 ms.
     */
    samples_for_contact_time: 18,
    /** As contacts fill fewer samples, from the one number to the other, touchdown's uncertainty grows by so many intervals: the same sprints. */
    few_samples: { from: 22, to: 14, intervals: 1.5 },
    /** A contact of 100 to 200 ms whose time is known to twice this at 95 % is not measured. Own choice. */
    rough_contact_time_ms: 30,
    /** Published advice: 200 Hz and more for foot sensors (Mitschke et al. 2017, doi 10.1080/10255842.2017.1382482). */
    rate_for_good_contact_time_hz: 190,
    /** Six samples a stride at 2.6 strides a second, the fastest: fewer do not show its swing. Own choice. */
    rate_for_steps_hz: 15,
    /** Half an interval then is 10 ms. Own choice. */
    rate_for_good_steps_hz: 50,
    /** One sample in a hundred: at 500 Hz, one in every other contact of 100 ms. Own choice. */
    much_lost: 0.01,
    /** Stamps that scatter by half an interval no longer tell which sample came first. */
    jitter_intervals: 0.5,
    /** One contact in ten: the means over a repetition then rest on nine in ten whole ones. Own choice. */
    clipped_contacts: 0.1,
    /** Half a second: long enough that no step is rest, short enough to be found before a start. */
    rest_window_s: 0.5,
    /** Largest spread of the acceleration in a window of rest. Own choice. */
    rest_limit_mps2: 0.6,
    /** Scale errors of calibrated sensors stay below 3 %; 6 % is a wrong scale or no rest. */
    rest_error: 0.06,
    /** Nearly all of the power of running: what is left is noise. */
    bandwidth_share: 0.99,
    /** Two to four strides: long enough to come back to where it was, short enough for little drift. */
    axes_window_s: 2,
    /** Windows over the recording whose median is taken: one turn of the sensor must not decide. */
    axes_windows: 5,
    /** A leg that runs turns faster than this on average (root mean square). */
    axes_rate_radps: 3,
    /** Axes that belong together average to 0.93 to 1.06 g (68 real sensors, 120 simulated); reversed ones mostly to 1.2 g and more. */
    axes_fit: 0.08,
    /** Beyond the 1.06 g of axes that belong together, with their scatter. */
    axes_misfit: 1.1,
  },
  phases: {
    /** Shares of the highest speed. Above 97 % the steps of one sprint no longer differ beyond their scatter; own choice. */
    transition: 0.85,
    /** See `transition`. */
    maximum: 0.97,
    /** Swing rates of steps at one speed differ by some per cent: slowing is beyond that. */
    slowing: 0.93,
  },
  start: {
    /** Stillness is judged below this: a push takes 0.1 s and more. */
    cutoff_hz: 12,
    /** Standing sways below these; the heel's rise exceeds them within the first centimetre. */
    still_radps: 0.2,
    /** As for the rate. Own choice. */
    still_mps2: 0.5,
    /** Set position is held at least this long. */
    still_for_s: 0.25,
    /** First touchdown follows first movement within this (reaction excluded). */
    longest_start_s: 3,
    /** The trunk leans before a foot or shank moves: mean of simulated standing starts, and its uncertainty. */
    feet_follow_s: 0.03,
    /** See `feet_follow_s`. */
    first_movement_u_s: 0.035,
  },
  foot_windows: {
    /** The search begins a little before the leg turns backward, so that a slap there is not cut. Own choice. */
    landing_before_turn: 0.02,
    /** The foot stops turning backward this soon after it began to, at the latest (a heel striker's slap). */
    landing: 0.13,
    /** The vertical jolt lies this long before or after that instant. */
    impact_before: 0.065,
    /** See `impact_before`. */
    impact_after: 0.03,
    /** Sharp impacts are sought until this long after it, or until this long before push-off. */
    landing_after: 0.065,
    /** See `landing_after`. */
    landing_before_push: 0.15,
    /** Shortest contact (85 ms in a stride of 0.45 s is 0.19) less the width of the push-off. */
    shortest_contact: 0.085,
    /** The push-off's minimum in the less smoothed rate lies within this of the one in the more smoothed. */
    push: 0.05,
    /** Mid-contact is looked for after the slap and before the last fifth of the way to push-off. */
    mid_after_landing: 0.03,
    /** See `mid_after_landing`. */
    mid_before_push: 0.2,
  },
  shank_windows: {
    /** Touchdown comes after the shank turned backward: from a little before to a quarter stride after. */
    landing_before_turn: 0.02,
    /** See `landing_before_turn`. */
    landing: 0.27,
    /** The knee folds fastest no later than this after touchdown (the slowest jogs reach 0.45, first steps of generated sprints 0.6). */
    longest_contact: 0.62,
    /** The knee folds no sooner than this after touchdown (85 ms of 0.45 s is 0.19). */
    landing_before_fold: 0.1,
    /** With a sharp impact: within this of the turn. Own choice. */
    impact: 0.08,
    /** Without a sharp impact: within this of the turn. */
    soft_landing: 0.195,
    /** The jolt rises within this before its peak. */
    rise_before_peak: 0.065,
    /** Half of a sprint's 0.19, so that an early fold is still looked at. Own choice. */
    shortest_contact: 0.1,
    /** The fold of the knee takes at least this much of the stride before the next swing. */
    fold: 0.3,
    /** How far the steepest fall of the rate is looked for. Own choice. */
    fall: 0.25,
    /** From the greatest rate of late contact to the last minimum of the fold: up to 0.32 in slow jogs. */
    folding: 0.37,
  },
  features: {
    /** Low-pass of the columns that features are picked in, in cycles a stride: 25 Hz in a jog, 40 Hz in a sprint. */
    cutoff_per_stride: 17.5,
    /** The same for the rate's slow shape: one minimum a push-off (foot), one maximum in late contact (shank). */
    slow_cutoff_per_stride: { foot: 10.5, shank: 8.5 },
    /** Columns reach this far beyond the cycle, so that filters start outside it. */
    margin_s: 0.12,
    /** Clipping or loss this close to a contact is said of it. */
    about_s: 0.03,
    /** Features this many standard deviations apart leave a confidence of one half. */
    doubtful: 4.5,
  },
  impact: {
    /** Low-pass of acceleration before its change is taken; 0.4 of the sampling rate where that is less. */
    cutoff_hz: 300,
    /** The swing this long before the landing is what an impact has to stand out from. */
    before_s: 0.06,
    /** About a slow jolt, the onset is sought from this long before its steepest rise to this long after. */
    search_s: 0.02,
    /** See `search_s`. Own choice. */
    after_s: 0.03,
    /** Rises less steep than this part of a stride's steepest are no landing. */
    rise_part: 0.12,
    /** A heel may land gently: the first rise counts when it is this part as steep as the steepest. */
    first_rise_part: 0.3,
    /** The same for the height of a shank's peaks. */
    first_peak_part: 0.45,
    /** Low-passes tried before the second change of acceleration is taken: the full bandwidth, and one below noise. */
    jump_cutoffs_hz: [300, 110],
    /** The second change within this after the onset against twice this before it, in strides (9 ms in a sprint). */
    jump_strides: 0.02,
    /** Recordings smeared by markers reach 5.5, also when played faster; sharp landings at 400 Hz and more start at 6.5. */
    jump_from: 5.2,
    /** Between the two the trust in sharpness grows evenly. */
    jump_to: 6.8,
    /** From this jump on nothing can have smeared the onset. */
    jump_clear: 20,
    /** A smeared onset shows early by this part of its rise (a zero-phase low-pass at 50 Hz: 1.4; a soft strap: 0), and the spread of the two. */
    smear_part: 0.65,
    /** See `smear_part`. */
    smear_sd_part: 0.7,
    /** A low-pass lets an onset show early, by this part of a period of its cut-off. */
    lead_periods: 0.55,
    /** Without low-pass a blow shows in the sample before it as well: early by this part of an interval, on average. */
    early_intervals: 0.4,
    /** Picking the onset between samples is good to about this part of an interval. */
    onset_intervals: 0.3,
    /** Sharp onsets keep their delay after the leg's turn to within this from stride to stride. */
    steady_s: 0.01,
    /** Strides on either side that say which of two rises is the landing. */
    neighbours: 5,
    /** A soft landing further than this from where its neighbours are, in strides, is a misread one: the scatter is 0.005. */
    most_apart: 0.03,
    /** An impact at full bandwidth reaches its first strong change within about 5 ms. */
    rise_s: 0.005,
    /** Contrast per rise: recordings smeared to 40 Hz stay below 3, sharp ones at 400 Hz and more exceed 4. */
    standout_from: 2.5,
    /** Between the two the trust in sharpness grows evenly. */
    standout_to: 5,
    /** A smeared impact keeps its change of acceleration below this, in cycles a stride: 35 Hz in a jog. */
    soft_cutoff_per_stride: 24.5,
    /** Without gyroscope, from this sharpness on landings are dated by their onsets. */
    sharp_at: 0.5,
    /** The onset is uncertain by this part of the rise. */
    onset_part: 0.2,
  },
  touchdown: {
    /** Stride time below which a soft landing's spread grows: the strides on plates were longer. */
    soft_stride_s: 0.65,
    /** By how much it grows: nobody measured soft landings of shorter strides. Own choice. */
    soft_sd_beyond: 4,
    /** Features further apart than this part of their standard deviations count by their votes, not by their distance. */
    outvote_sd: 0.3,
    foot: {
      /** Mean of the slap and the jolt: one is late where the other is early (heel or forefoot first), so their mean holds. */
      landing_offset_strides: 0.0035,
      /** A forefoot may stop turning before it lands: the mean then stays this far behind the jolt's steepest rise. */
      least_lag_strides: 0.005,
      /** As measured on plates: mean over runners, and the spread between them (head of this file). */
      landing_sd_s: 0.0025,
      /** Where no impact shows, the slap alone is left. As measured on plates, as above. */
      without_impact_sd_s: 0.008,
      /** The sole is on the sensor's own segment: no delay is allowed for. */
      sharp_offset_s: 0,
      /** Own choice: half an interval at 500 Hz. */
      sharp_sd_s: 0.001,
    },
    shank: {
      /** As measured on plates: mean over runners, and the spread between them (head of this file). */
      rise_offset_strides: -0.022,
      /** As measured on plates: mean over runners, and the spread between them (head of this file). */
      rise_sd_s: 0.005,
      /** A rise taken from the strides around is so much less certain. */
      from_neighbours_factor: 2,
      /** The jolt takes a few milliseconds from the sole to the shank. */
      onset_offset_s: -0.002,
      /** As measured on plates: mean over runners, and the spread between them (head of this file). */
      onset_sd_s: 0.004,
      /** Least contrast of an onset that counts. Own choice. */
      onset_contrast: 3.5,
      /** How far from the rise an onset counts. Own choice. */
      onset_reach_s: 0.018,
      /** Half of `onset_offset_s`, since a sharp onset shows the jolt's very front. Own choice. */
      sharp_offset_s: -0.001,
      /** Twice the foot's, for the way up the shank. Own choice. */
      sharp_sd_s: 0.002,
    },
  },
  toe_off: {
    foot: {
      /** The heel rises fastest shortly before the toes leave, by the same share of a jog's contact and of a sprint's. */
      push_offset_contacts: 0.07,
      /** As measured on plates: mean over runners, and the spread between them (head of this file). */
      push_sd_contacts: 0.02,
      /** Picking a peak is good to half an interval at 400 Hz or so. Own choice. */
      push_sd_s: 0.0015,
      /** Alone, without a second feature to agree with, it counts as this much less certain. Own choice. */
      push_alone_factor: 2,
      /** Speed of the toes at the instant the force plate reads 50 N, as a share of the sensor's about them at push-off. */
      toes_share: 0.77,
      /** As measured on plates: mean over runners, and the spread between them (head of this file). */
      toes_offset_s: -0.0024,
      /** From the laces to the ball of an adult's foot (common practice); used where no push-off fits a lever. */
      usual_lever_m: 0.15,
      /** As measured on plates: mean over runners, and the spread between them (head of this file). */
      toes_sd_contacts: 0.03,
      /** Picking a peak is good to half an interval at 400 Hz or so. Own choice. */
      toes_sd_s: 0.0015,
      /** Features further apart than this part of their standard deviations count by their votes, not by their distance. */
      outvote_sd: 0.3,
      /** The toes leave no sooner before and no later after the fastest heel rise. */
      toes_before_strides: 0.012,
      /** See `toes_before_strides`. */
      toes_reach_strides: 0.08,
      /** The ground lets go: steepest fall of the vertical acceleration, sought about what the other features say. */
      unloading_before_strides: 0.025,
      /** See `unloading_before_strides`. */
      unloading_after_strides: 0.04,
      /** Falls less steep than this part of the steepest there are ripple. */
      unloading_part: 0.3,
      /** As measured on plates: mean over runners, and the spread between them (head of this file). */
      unloading_offset_strides: -0.0085,
      /** As measured on plates: mean over runners, and the spread between them (head of this file). */
      unloading_sd_strides: 0.008,
      /** Part of the push-off over which the lever arm to the toes is fitted, in shares of the fastest heel rise. */
      push_from_part: 0.3,
      /** See `push_from_part`; short of the peak, where the toes may have left. */
      push_to_part: 0.85,
    },
    shank: {
      /**
       * The fold of the knee begins at toe-off in runs (strides of `run.stride_s`, plates: head of this file) and some 3 ms before it in sprints
       * (a sprinter at 8.55 m/s on a treadmill, toe-off at 50 N; computed from markers and plates for this project, no paper). Its tangent is
       * blunter the slower the leg, so the steepest fall comes 4 ms after toe-off in sprints and 23 ms in runs. Between the two strides
       * it is linear in stride time, beyond them it stays.
       */
      run: { stride_s: 0.7, begin_offset_s: -0.0007, fall_offset_s: -0.0235 },
      /** See `run`. */
      sprint: { stride_s: 0.47, begin_offset_s: 0.003, fall_offset_s: -0.004 },
      /** As measured on plates: mean over runners, and the spread between them (head of this file). In parts of the fold's own length. */
      begin_sd_part: 0.12,
      /** As measured on plates: mean over runners, and the spread between them (head of this file). */
      begin_sd_s: 0.005,
      /** As measured on plates: mean over runners, and the spread between them (head of this file). */
      fall_sd_s: 0.01,
      /**
       * A fold that takes longer than this part of the stride has a second, steeper one behind the first (195 of 196 contacts on plates stay
       * below; generated first steps have it): toe-off lies anywhere along it.
       */
      twofold_strides: 0.18,
      /** Of contacts longer than this: between the runners on plates toe-off differs by 8 ms at 0.3 s, by 3 ms at 0.2 s. */
      long_contact_s: 0.2,
      /** See `long_contact_s`: part of the time beyond it. */
      long_sd_part: 0.09,
      /** Of strides shorter than this: toe-off of two generators' sprints is 5 ms late and 4 ms early (stride 0.47 s). */
      measured_stride_s: 0.65,
      /** See `measured_stride_s`. */
      shorter_sd_s: 0.009,
    },
  },
};

export type AnalysisSettings = typeof DEFAULT_SETTINGS;

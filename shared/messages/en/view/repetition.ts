import { MOUNTING_PLACES } from '../../../mountings.ts';
import type { Mounting } from '../../../words.ts';
import type { PhraseRoom } from '../../sentence.ts';

const otherPlace = (mounting: Mounting): string => MOUNTING_PLACES[MOUNTING_PLACES[mounting].mistaken_for].place;
type Count = { n: number };

/** The page of one repetition. */
export const repetitionWords = {
  repetition: 'repetition',
  planned: 'Planned; not run yet. Bring its files in, or record it live.',
  being_measured: 'Recorded. It is being measured; the result appears here.',
  // Head
  time_of: ({ time }: { time: string }) => `time ${time}`,
  where_this_is: 'Where this is',
  session_of: ({ date }: { date: string }) => `Session, ${date}`,
  previous: 'Previous',
  next: 'Next',
  of_this_athlete: ({ n }: Count) => ` repetition of this athlete, number ${n}`,
  repetition_n: ({ n }: Count) => `repetition ${n}`,
  deleted: ({ n, athlete }: Count & { athlete: string }) => `Repetition ${n} of ${athlete} deleted.`,
  film: 'Film',
  compare: 'Compare',
  report: 'Report',
  change: 'Change',
  delete: 'Delete',
  no_contact_time: ({ reason }: { reason: string }) =>
    `Contact time could not be measured${reason ? `: ${reason}` : ''}.`,
  // Figures
  figures: 'Figures',
  time: 'time',
  timed_by: ({ method }: { method: string }) => `timed by ${method}`,
  top_speed: 'top speed',
  means_at_speed: ({ n }: Count) => `Means over ${n} contacts at speed`,
  means_of_all: ({ n }: Count) => `Means over all ${n} contacts`,
  plus_minus: '; ± is the 95 % range of measurement and step-to-step scatter.',
  nothing_to_compare:
    'Nothing to compare with yet: normal is made of earlier repetitions at the same effort and course.',
  normal_rests_on: ({ n, days, provisional }: Count & { days: number | null; provisional: boolean }, say) =>
    `Normal rests on ${n} ${say.plural(n, { one: 'repetition', other: 'repetitions' })} ${days === null ? 'earlier today' : `of ${days} earlier ${say.plural(days, { one: 'day', other: 'days' })}`} at the same effort and course${provisional ? ': provisional until there are six.' : '.'}`,
  contact_time_sides: 'contact time, left and right',
  left_short: 'L',
  right_short: 'R',
  no_contact_time_left: 'no contact time of the left foot',
  no_contact_time_right: 'no contact time of the right foot',
  step_scatter: ({ ms }: { ms: string }) => `step to step ± ${ms} ms`,
  no_difference: ({ size, scatter }: { size: string; scatter: string }) =>
    `no difference beyond chance (${size}); ${scatter}`,
  left_longer: ({ size, scatter }: { size: string; scatter: string }) => `left longer by ${size}; ${scatter}`,
  right_longer: ({ size, scatter }: { size: string; scatter: string }) => `right longer by ${size}; ${scatter}`,
  doubts: 'Doubts about this repetition',
  // Profile
  stride_profile: 'Stride profile',
  quantity: 'Quantity',
  along: 'Along',
  by_step: 'by step',
  by_distance: 'by distance',
  shown_as: 'Shown as',
  as_measured: 'as measured',
  against_normal: 'against normal',
  with_run_out: 'with the slowing after the line',
  no_distance: ({ reason }: { reason: string }) =>
    `By distance is not possible: ${reason || 'no course with a time, and no belt speed, was given.'}`,
  earlier_alike: ({ n }: Count) => `earlier today, same effort and course (${n})`,
  not_measurable_here: ({ quantity, reason }: { quantity: string; reason: string }) =>
    `${quantity} is not measurable here. ${reason}`,
  tap_a_step: 'Tap a step, or use the arrow keys, to read it.',
  every_contact: 'Every contact of this repetition',
  what_words_mean: 'What these words mean',
  fewer_columns: 'Fewer columns',
  all_columns: 'All columns',
  save_csv: 'Save as CSV',
  normal_variation: 'normal variation',
  normal_variation_of: ({ n, provisional }: Count & { provisional: boolean }, say) =>
    `normal variation (${n} ${say.plural(n, { one: 'repetition', other: 'repetitions' })}${provisional ? ', provisional' : ''})`,
  from_normal: 'from normal',
  at_distance: ({ distance }: { distance: string }) => `, at ${distance}`,
  step_n: ({ n }: Count) => `step ${n}`,
  normal_there: ({ low, high }: { low: string; high: string }) => `; normal ${low} to ${high}`,
  // Contacts
  step: 'step',
  side: 'side',
  phase: 'phase',
  phase_acceleration: 'acceleration',
  phase_transition: 'transition',
  phase_maximum_speed: 'maximum speed',
  phase_slowing: 'slowing',
  why_wide: ({ reason }: { reason: string }) => `, why its ± is wide: ${reason}.`,
  not_measurable_list: 'Not measurable here:',
  // Acceleration
  acceleration: 'Acceleration',
  curve_top_speed: 'top speed of the fitted curve',
  time_constant: 'time constant',
  after_time_constant: ': after it, 63 % of that speed',
  force_at_start: 'horizontal force at the start',
  speed_force_ends: 'speed at which force ends',
  greatest_power: 'greatest power',
  greatest_ratio: 'greatest ratio of force forward',
  found_from: ({ from }: { from: string }) => `Found from ${from}.`,
  from_splits: 'the splits',
  from_time_and_steps: 'the time over the course and the steps',
  from_foot_sensor: 'the foot sensors',
  from_combined: 'the times and the foot sensors together',
  estimates: ' Force and power are estimates of a simple model; their errors hold the curve, the air and the model.',
  needs_body: ' Force and power need the body mass and stature of the athlete.',
  rests_on: ({ percent }: { percent: string }) =>
    ` What the fit supposes beforehand (when the clock started, the time constant) moves the force at the start by ${percent} % a standard uncertainty; its ± allows for that.`,
  pulled_by: ({ percent }: { percent: string }) =>
    ` From what the times give by themselves it moved that force by ${percent} %.`,
  // Provenance
  how_made: 'How this result was made',
  version: 'version',
  version_of: ({ version, method }: { version: string; method: string }) => `${version}, method ${method}`,
  made: 'made',
  settings: 'settings',
  file: 'file',
  left_file: 'left file',
  right_file: 'right file',
  filter_n: ({ n }: Count) => `filter ${n}`,
  measuring: 'Measuring ...',
  measure_again: 'Measure again',
  // Signal
  raw_signal: 'Raw signal',
  signal: 'Signal',
  signal_acc: 'acceleration',
  signal_acc_axes: 'acceleration by axis',
  signal_gyr_axes: 'rotation by axis',
  earlier: 'Earlier',
  closer: 'Closer',
  wider: 'Wider',
  later: 'Later',
  running: 'Running',
  all: 'All',
  chosen_step: 'Chosen step',
  signal_from_to: ({ from_s, to_s }: { from_s: number; to_s: number }, say) =>
    `Raw signal, ${say.number(from_s, 2)} to ${say.number(to_s, 2)} seconds`,
  from_to_s: ({ from_s, to_s }: { from_s: number; to_s: number }, say) =>
    `${say.number(from_s, 2)} to ${say.number(to_s, 2)} s`,
  signal_help:
    'Shaded: contacts with their step number; full line touchdown, broken line toe-off. Drag over a stretch to come closer. Keys, once the plot is focused:',
  keys_move: 'move',
  keys_zoom: 'zoom',
  keys_all: 'all',
  keys_contact: 'next and previous contact.',
  samples_missing: 'samples missing',
  beyond_range: "beyond the sensor's range",
  // Quality
  recording_quality: 'Recording quality',
  fit_for: 'Fit for',
  fit_good: 'good',
  fit_wider: 'usable with wider uncertainty',
  fit_never: 'not measurable',
  angles: 'angles',
  for_scientist: 'Figures for the scientist',
  recorded_strip: (
    { duration_s, from_s, to_s, gaps }: { duration_s: number; from_s: number; to_s: number; gaps: boolean },
    say,
  ) =>
    `${say.number(duration_s, 1)} s recorded; the repetition from ${say.number(from_s, 1)} to ${say.number(to_s, 1)} s${gaps ? '; gaps are cut out' : ''}`,
  sensor: 'Sensor',
  left_sensor: 'Left sensor',
  right_sensor: 'Right sensor',
  both_sensors: 'Both sensors',
  about_recording: 'About this recording',
  left_foot: 'Left foot',
  right_foot: 'Right foot',
  left_shank: 'Left shank',
  right_shank: 'Right shank',
  // Findings: short, what happened, what to do
  only_rate: ({ rate_hz }: { rate_hz: number }, say) => `only ${say.number(rate_hz, 0)} samples a second`,
  too_coarse: ({ rate_hz }: { rate_hz: number }, say) =>
    `Only ${say.number(rate_hz, 0)} samples a second: too coarse for contact times.`,
  coarse: ({ rate_hz }: { rate_hz: number }, say) =>
    `${say.number(rate_hz, 0)} samples a second: contact times carry a wider uncertainty.`,
  todo_rate: 'Set the sensor to 200 a second or more where it can.',
  gaps: ({ n }: Count, say) => `${n} ${say.plural(n, { one: 'gap', other: 'gaps' })}`,
  gaps_what: ({ n, lost, longest_ms }: Count & { lost: number; longest_ms: number }, say) =>
    `${n} ${say.plural(n, { one: 'gap', other: 'gaps' })}${lost > 0 ? `, ${lost} ${say.plural(lost, { one: 'sample', other: 'samples' })} lost` : ''}; the longest ${say.number(longest_ms, 0)} ms. Nothing is made up inside a gap.`,
  todo_gaps: 'Keep the receiver within sight, or let the sensor store. Charge it if it is low.',
  acc_clipped: 'acceleration beyond its range',
  acc_clipped_what: ({ contacts }: { contacts: number }, say) =>
    `The acceleration reached the end of the sensor's range${contacts > 0 ? ` in ${contacts} ${say.plural(contacts, { one: 'contact', other: 'contacts' })}` : ''}.`,
  todo_acc_clipped: "Raise the sensor's acceleration range where it has a higher one.",
  gyr_clipped: 'rotation beyond its range',
  gyr_clipped_what:
    "The rotation reached the end of the sensor's range: angles and stride length there are not to be trusted.",
  todo_gyr_clipped: "Raise the sensor's rotation range where it has a higher one.",
  stamps_jump: 'time stamps jump',
  stamps_jump_what: ({ jitter_ms }: { jitter_ms: number }, say) =>
    `The time stamps scatter by ${say.number(jitter_ms, 1)} ms, more than half of an interval.`,
  todo_stamps: "Let the logger write the sensor's own time, not that of arrival.",
  clean: 'clean',
  clean_what: ({ rate_hz }: { rate_hz: number }, say) =>
    `Recorded cleanly: ${say.number(rate_hz, 0)} samples a second, no gaps, nothing out of range.`,
  wrong_at_rest: 'reads wrongly at rest',
  wrong_at_rest_what: ({ g }: { g: number }, say) =>
    `Standing still it reads ${say.number(g, 2)} g instead of ${say.number(1, 2)} g: its scale is off.`,
  todo_scale: 'Look at the unit of acceleration where the file comes in, or calibrate the sensor.',
  axes_misfit: 'axes do not fit each other',
  axes_misfit_what: ({ axes }: { axes: string }) =>
    `Acceleration and rotation fit each other only with rotation about ${axes} turned round. Angles and stride length are not to be trusted.`,
  todo_axes: ({ axes }: { axes: string }) =>
    `Turn the sign of rotation ${axes} in the columns of the file, under Files in.`,
  other_place: ({ mounting }: { mounting: Mounting }) => `moves like one on the ${otherPlace(mounting)}`,
  other_place_what: ({ mounting }: { mounting: Mounting }) =>
    `The sensor moved as one on the ${otherPlace(mounting)} does, not as one on the ${MOUNTING_PLACES[mounting].place}: contact times are left out, and contacts are missing.`,
  todo_other_place: ({ mounting }: { mounting: Mounting }) =>
    `If it was on the ${otherPlace(mounting)}, add the file again as worn on the ${otherPlace(mounting)}.`,
  swapped: 'left and right look swapped',
  swapped_what:
    'Left and right look swapped: each leg turns as the other one should. Every figure then belongs to the other leg.',
  todo_swapped: 'See which sensor was on which leg. If they were swapped, add the files again the other way round.',
  loose: 'sat loose',
  loose_what: ({ why }: { why: string }) => `The sensor sat loose: ${why}. Touchdown and toe-off are blurred by it.`,
  todo_loose: 'Tighten the strap before the next repetition; on the shoe, lace it in.',
  slipped: 'slipped',
  slipped_what: ({ why, far }: { why: string; far: boolean }) =>
    `The sensor slipped: ${why}. Its angles are not to be trusted${far ? ', nor the contacts of the shorter part' : ''}.`,
  todo_slipped: 'Put it back where it was and fasten it so that it cannot turn.',
  order_3_db_at_hz: ({
    channel,
    kind,
    order,
    cutoff_hz,
    passes,
  }: {
    channel: string;
    kind: string;
    order: number;
    cutoff_hz: string;
    passes: string;
  }) => `${channel}: ${kind}, order ${order}, −3 dB at ${cutoff_hz} Hz, ${passes}`,
  offset_s_ms_drift_ppm: ({
    clock_offset_s,
    clock_offset_u_s,
    clock_drift,
  }: {
    clock_offset_s: string;
    clock_offset_u_s: string;
    clock_drift: string;
  }) => `offset ${clock_offset_s} s ± ${clock_offset_u_s} ms, drift ${clock_drift} ppm`,
  sampling_rate: 'sampling rate',
  jitter_sd: 'jitter (SD)',
  lost: ({ samples, lost_samples }: { samples: number; lost_samples: number }) => `${samples}, ${lost_samples} lost`,
  clipped_samples: 'clipped samples',
  acceleration_rotation: ({
    acc_clipped_samples,
    gyr_clipped_samples,
  }: {
    acc_clipped_samples: number;
    gyr_clipped_samples: number;
  }) => `acceleration ${acc_clipped_samples}, rotation ${gyr_clipped_samples}`,
  contacts_with_clipping: 'contacts with clipping',
  resting_norm: 'resting norm',
  rotation_bias: 'rotation bias',
  acceleration_noise: 'acceleration noise',
  rotation_noise: 'rotation noise',
  bandwidth_while_running: 'bandwidth while running',
  course_time_and_effort: 'Course, time and effort',
  saving_measures_the_repetition_anew: 'Saving measures the repetition anew; the recording itself never changes.',
  save_and_measure: 'Save and measure',
  reading_signal: 'Reading signal ...',
  foot_or_shank: 'foot or shank',
  left_or_right: 'left or right',
  firm_on_its_strap: 'firm on its strap',
  kept_its_place: 'kept its place',
  n_passes: ({ n }: Count, say) => `${n} ${say.plural(n, { one: 'pass', other: 'passes' })}`,
} as const satisfies PhraseRoom;

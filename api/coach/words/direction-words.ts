/** The words for 'more' and 'less' of a quantity, as a coach would say them, and its short name in a sentence. */
interface Words {
  subject: string;
  more: string;
  less: string;
}

const TIME = { more: 'longer', less: 'shorter' };

const WORDS: Record<string, Words> = {
  contact_time_ms: { subject: 'contact', ...TIME },
  flight_time_ms: { subject: 'flight', ...TIME },
  swing_time_ms: { subject: 'swing', ...TIME },
  step_time_ms: { subject: 'step time', ...TIME },
  stride_time_ms: { subject: 'stride time', ...TIME },
  step_rate_hz: { subject: 'step rate', more: 'quicker', less: 'slower' },
  step_length_m: { subject: 'step', ...TIME },
  stride_length_m: { subject: 'stride', ...TIME },
  contact_length_m: { subject: 'contact length', ...TIME },
  speed_mps: { subject: 'speed', more: 'faster', less: 'slower' },
  speed_max_mps: { subject: 'maximum speed', more: 'faster', less: 'slower' },
  time_s: { subject: 'time', more: 'slower', less: 'faster' },
  acceleration_end_m: { subject: 'acceleration', ...TIME },
  heel_recovery_height_m: { subject: 'heel recovery', more: 'higher', less: 'lower' },
  shank_angle_touchdown_deg: { subject: 'landing', more: 'further ahead', less: 'less far ahead' },
  foot_pitch_touchdown_deg: { subject: 'landing', more: 'more on the toes', less: 'flatter' },
  foot_pitch_toe_off_deg: { subject: 'push', more: 'steeper at the end', less: 'flatter at the end' },
  shank_rotation_deg: { subject: 'push', more: 'further round', less: 'less far round' },
  foot_progression_deg: { subject: 'foot', more: 'further out', less: 'further in' },
  swing_fold_deg: { subject: 'leg', more: 'more folded', less: 'less folded' },
  contact_time_side_difference_ms: { subject: 'contact', more: 'longer on the left', less: 'longer on the right' },
  step_time_side_difference_ms: { subject: 'step time', more: 'longer on the left', less: 'longer on the right' },
};

export function directionWords(quantity: string, label: string): Words {
  return WORDS[quantity] ?? { subject: label, more: 'more', less: 'less' };
}

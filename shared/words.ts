/** The closed vocabularies of the project: spelled once, used by every part. */

export const SIDES = ['left', 'right', 'unknown'] as const;
export type Side = (typeof SIDES)[number];

export const MOUNTINGS = ['foot', 'shank'] as const;
export type Mounting = (typeof MOUNTINGS)[number];

/** Phases of a repetition; no other phase names exist. */
export const PHASES = ['acceleration', 'transition', 'maximum speed', 'slowing'] as const;
export type Phase = (typeof PHASES)[number];

/** What step length and speed come from. */
export const SPATIAL_SOURCES = ['timing', 'belt', 'foot_sensor', 'combined'] as const;
export type SpatialSource = (typeof SPATIAL_SOURCES)[number];

/** What starts the clock that `time_s` and the splits run from. */
export const CLOCK_STARTS = ['first_movement', 'gun', 'gate'] as const;
export type ClockStart = (typeof CLOCK_STARTS)[number];

/** How a repetition begins. */
export const START_STYLES = ['standing', 'three_point', 'block', 'crouched', 'rolling', 'flying'] as const;
export type StartStyle = (typeof START_STYLES)[number];

/** How a time was taken. Hand times are never mixed with electronic ones without saying so. */
export const TIMING_METHODS = ['hand', 'touch_pad_beam', 'beam', 'gun_photo_finish', 'motion_start', 'other'] as const;
export type TimingMethod = (typeof TIMING_METHODS)[number];

/** Whether the athlete travels over ground or on a moving belt; decides how speed is found. */
export const TRAVEL_KINDS = ['overground', 'treadmill', 'unknown'] as const;
export type TravelKind = (typeof TRAVEL_KINDS)[number];

/** The verdict on one quantity of one recording. */
export const FITNESS = ['good', 'usable with wider uncertainty', 'not measurable'] as const;
export type Fitness = (typeof FITNESS)[number];

/** What the motion says about how a sensor was worn. */
export const MOUNTING_CHECKS = ['segment', 'side', 'ringing', 'turning'] as const;
export type MountingCheckName = (typeof MOUNTING_CHECKS)[number];

/** The outcome of such a check. */
export const CHECK_FINDINGS = ['as expected', 'cannot be told', 'doubtful'] as const;
export type CheckFinding = (typeof CHECK_FINDINGS)[number];

/** What an analysis says of a repetition and of a sensor's recording: types of dsp's results and of the API's answers. */
import { type Static, type TOptional, Type } from 'typebox';
import { CONTACT_QUANTITIES, type ContactQuantity, REPETITION_FIELDS } from '../fields.ts';
import { CHECK_FINDINGS, FITNESS, MOUNTING_CHECKS, TRAVEL_KINDS } from '../words.ts';
import { FaultValue, MountingWord, Nullable, SideWord, wordOf, ReasonText } from './common.ts';
import { ContactSchema } from './contact.ts';

const number = (description: string) => Type.Number({ description });
const u = (of: string) => Type.Number({ description: `Standard uncertainty of ${of}.` });

/** Field name -> plain words. */
const Reasons = Type.Record(Type.String(), ReasonText);

export const SpeedCurve = Type.Object(
  {
    vmax_mps: number('Speed that the curve tends to, m/s.'),
    vmax_mps_u: u('vmax_mps'),
    tau_s: number('Time constant, s.'),
    tau_s_u: u('tau_s'),
    time_shift_s: number('Clock zero minus first movement, s; 0 when the clock starts with the movement.'),
    time_shift_s_u: u('time_shift_s'),
    residual_s: number('Root mean square of what the curve leaves of the times, s.'),
    from: wordOf(['splits', 'time and steps', 'foot_sensor', 'combined']),
    f0_prior_u_share: Type.Optional(
      number(
        'Relative change of vmax / tau, and with it of F0, when what the fit supposes beforehand (start of the clock; the time constant, where one time stands alone) is one standard uncertainty higher. Absent in analyses of earlier versions.',
      ),
    ),
    f0_prior_pull_share: Type.Optional(
      Nullable(
        number(
          'By how much that pulled vmax / tau from what times and strides give by themselves, relative; null where these settle no curve.',
        ),
      ),
    ),
  },
  { description: 'v(t) = vmax (1 - exp(-(t - t0)/tau)).' },
);
export type SpeedCurve = Static<typeof SpeedCurve>;

const kineticQuantities = {
  horizontal_force_f0_n: Type.Number(),
  horizontal_force_f0_n_per_kg: Type.Number(),
  velocity_v0_mps: Type.Number(),
  power_max_w: Type.Number(),
  power_max_w_per_kg: Type.Number(),
  ratio_of_force_max: Type.Number(),
  ratio_of_force_slope: Type.Number(),
  force_velocity_slope: Type.Number(),
};
export const KineticQuantities = Type.Object(kineticQuantities);
export type KineticQuantities = Static<typeof KineticQuantities>;

/** Of every quantity its twin. */
function uncertainties<Properties extends Record<string, unknown>>(properties: Properties) {
  const twins = Object.keys(properties).map((name) => [`${name}_u`, u(name)]);
  return Object.fromEntries(twins) as { [Name in keyof Properties & string as `${Name}_u`]: ReturnType<typeof u> };
}

export const AccelerationKinetics = Type.Object(
  { ...kineticQuantities, ...uncertainties(kineticQuantities) },
  {
    description:
      'Kinetic estimates from the acceleration curve, each with its standard uncertainty. Source: Samozino et al. 2016, doi 10.1111/sms.12490.',
  },
);
export type AccelerationKinetics = Static<typeof AccelerationKinetics>;

/** Mean, spread and uncertainty of one quantity over a set of contacts. */
export const QuantitySummary = Type.Object({
  mean: Type.Number(),
  sd: number('Standard deviation between contacts (n - 1).'),
  mean_u: number('Standard uncertainty of the mean, measurement error included.'),
  n: Type.Integer(),
});
export type QuantitySummary = Static<typeof QuantitySummary>;

const summaries = Object.fromEntries(CONTACT_QUANTITIES.map((name) => [name, Type.Optional(QuantitySummary)])) as {
  [Name in ContactQuantity]: TOptional<typeof QuantitySummary>;
};
const means = (over: string) => Type.Object(summaries, { description: over });

export const MissingContacts = Type.Object(
  {
    after_step: Type.Integer({
      minimum: 0,
      description: 'The contact before them, as `step` counts; 0: before the first that was found.',
    }),
    contacts: Type.Integer({ minimum: 1, description: 'How many, by the step times around.' }),
    samples_lost: Type.Boolean({ description: 'Samples are missing there: they may have been in them.' }),
  },
  { description: 'Contacts of the recorded feet that were run and not found. `step` counts those found.' },
);
export type MissingContacts = Static<typeof MissingContacts>;

export const RepetitionSummary = Type.Object({
  contacts: Type.Integer(),
  /** Both absent in analyses made before missing contacts were told. */
  contacts_missing: Type.Optional(
    Type.Integer({ description: REPETITION_FIELDS.contacts_missing.definition, minimum: 0 }),
  ),
  missing: Type.Optional(Type.Array(MissingContacts)),
  all: means('Over all contacts of the repetition.'),
  at_speed: means("Over the contacts 'at speed': the maximum-speed phase, or all steady contacts on a treadmill."),
  left: means('Of the contacts at speed; of all where none is at speed.'),
  right: means('Of the contacts at speed; of all where none is at speed.'),
  speed_max_mps: Nullable(Type.Number()),
  speed_max_mps_u: Nullable(Type.Number()),
  distance_m: Nullable(Type.Number()),
  time_s: Nullable(Type.Number()),
});
export type RepetitionSummary = Static<typeof RepetitionSummary>;

export const RepetitionResult = Type.Object({
  repetition: Type.Integer(),
  travel: wordOf(TRAVEL_KINDS),
  first_movement_s: Nullable(number('First movement of the start; null when the recording starts while running.')),
  first_movement_s_u: Nullable(u('first_movement_s')),
  course_end_s: Nullable(number('When the course ends (its length reached); null when the length is unknown.')),
  start_s: number('First instant of running.'),
  end_s: number('Last instant of running.'),
  contacts: Type.Array(ContactSchema),
  speed_curve: Nullable(SpeedCurve),
  kinetics: Nullable(AccelerationKinetics),
  summary: RepetitionSummary,
  /** Why nothing could be said for the whole repetition. */
  reasons: Reasons,
});
export type RepetitionResult = Static<typeof RepetitionResult>;

export const QuantityVerdict = Type.Object({
  quantity: Type.String(),
  fitness: wordOf(FITNESS),
  why: ReasonText,
});
export type QuantityVerdict = Static<typeof QuantityVerdict>;

/**
 * Whether a sensor was worn as stated, judged from the motion alone: on the stated segment (foot or shank), on the stated
 * side, without ringing on its strap, without turning on the leg.
 */
export const MountingCheck = Type.Object({
  check: wordOf(MOUNTING_CHECKS),
  finding: wordOf(CHECK_FINDINGS),
  value: Nullable(number('What decides; null where nothing was measured.')),
  value_u: Nullable(u('value')),
  limit: Nullable(number("Beyond it the finding is 'doubtful'.")),
  unit: wordOf(['1', 'dB', 'deg']),
  strides: Nullable(
    Type.Integer({ description: 'Strides that the value rests on; null where it was not taken stride by stride.' }),
  ),
  /** What was seen against what is expected, or why nothing can be told. */
  why: ReasonText,
});
export type MountingCheck = Static<typeof MountingCheck>;

/** How good one sensor's recording is, and for what. One entry of quality.json. */
export const SensorQuality = Type.Object({
  side: SideWord,
  mounting: MountingWord,
  sampling_rate_hz: Type.Number(),
  jitter_ms: number('Standard deviation of the sample intervals, ms.'),
  samples: Type.Integer(),
  duration_s: Type.Number(),
  lost_samples: Type.Integer(),
  gaps: Type.Array(
    Type.Object({ start_s: Type.Number(), end_s: Type.Number(), lost_samples: Nullable(Type.Integer()) }),
  ),
  acc_clipped_samples: Type.Integer(),
  gyr_clipped_samples: Type.Integer(),
  contacts_with_clipping: Type.Integer(),
  resting_norm_mps2: Nullable(number('Norm of acceleration at rest; null when the recording holds no rest.')),
  gyr_bias_radps: Nullable(Type.Number()),
  acc_noise_mps2: Nullable(Type.Number()),
  gyr_noise_radps: Nullable(Type.Number()),
  bandwidth_hz: Nullable(number("Frequency below which 99 % of the acceleration's power lies while running, Hz.")),
  /** Absent in analyses made before there were such checks. */
  mounting_checks: Type.Optional(Type.Array(MountingCheck)),
  verdicts: Type.Array(QuantityVerdict),
  faults: Type.Array(FaultValue),
});
export type SensorQuality = Static<typeof SensorQuality>;

/** A filter as it acted: effective order and -3 dB frequency after both passes. */
export const EffectiveFilter = Type.Object({
  channel: Type.String(),
  kind: Type.String(),
  order: Type.Number(),
  cutoff_hz: Type.Number(),
  passes: Type.Integer(),
});
export type EffectiveFilter = Static<typeof EffectiveFilter>;

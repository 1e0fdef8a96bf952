/** What is true of every quantity that the product states an uncertainty for, as far as the reference tells. */
import { accelerationKinetics, bodyAndAir } from '../../../dsp/strides/acceleration-kinetics.ts';
import { springMass } from '../../../dsp/strides/stiffness.ts';
import type {
  Conditions,
  Contact,
  ContactQuantity,
  Course,
  KineticQuantities,
  RepetitionResult,
} from '../../../shared/analysis.ts';
import { UNKNOWN_CONDITIONS } from '../../../shared/analysis.ts';
import { CONTACT_QUANTITIES } from '../../../shared/fields.ts';
import type { ReferenceContact, TrueRun } from './validation-case.ts';

/** Of every runner: stiffness and force are wanted for their uncertainty, not for their size. */
export const CONDITIONS: Conditions = { ...UNKNOWN_CONDITIONS, body_mass_kg: 70, stature_m: 1.75, wind_mps: 0 };

/** A longer time to the next contact means that the reference lacks one. */
const LONGEST_STEP_S = 0.6;

/** Error and stated standard uncertainty, in the field's unit. */
export interface FieldError {
  field: string;
  error: number;
  stated_u: number;
}

/**
 * Quantities of one contact of the reference that follow from its own instants, from the next two contacts', or were
 * measured by another system. Stiffness is that of the same model from the true times: what is judged is the
 * propagation, not the model.
 */
export function trueQuantities(
  reference: ReferenceContact[],
  i: number,
  course: Course,
): Partial<Record<ContactQuantity, number | null>> {
  const contact = reference[i];
  const { side, touchdown_s, toe_off_s } = contact;
  const next = reference[i + 1];
  const direct = next && next.side !== side && next.touchdown_s - touchdown_s < LONGEST_STEP_S ? next : null;
  const after = reference[i + 2];
  const same = direct && after?.side === side && after.touchdown_s - direct.touchdown_s < LONGEST_STEP_S ? after : null;
  const step_s = direct && direct.touchdown_s - touchdown_s;
  const stride_s = same && same.touchdown_s - touchdown_s;
  const contact_s = toe_off_s - touchdown_s;
  const speed_mps = step_s && contact.step_length_m !== null ? contact.step_length_m / step_s : null;
  const spring =
    step_s === null
      ? null
      : springMass({
          body_mass_kg: CONDITIONS.body_mass_kg!,
          speed_mps: speed_mps ?? Number.NaN,
          leg_length_m: 0.53 * CONDITIONS.stature_m!,
          contact_time_s: contact_s,
          flight_time_s: step_s - contact_s,
        });
  return {
    touchdown_s,
    toe_off_s,
    contact_time_ms: 1000 * contact_s,
    flight_time_ms: step_s && 1000 * (step_s - contact_s),
    step_time_ms: step_s && 1000 * step_s,
    step_rate_hz: step_s && 1 / step_s,
    swing_time_ms: stride_s && 1000 * (stride_s - contact_s),
    stride_time_ms: stride_s && 1000 * stride_s,
    duty_factor: stride_s && contact_s / stride_s,
    step_length_m: contact.step_length_m,
    // The belt's speed is both what is told and what is true.
    speed_mps: course.belt_speed_mps === null ? speed_mps : null,
    // Without a course the distance counts from the first contact seen.
    distance_m: course.distance_m === null ? null : (contact.distance_m ?? null),
    stride_length_m: contact.stride_length_m,
    foot_pitch_touchdown_deg: contact.foot_pitch_touchdown_deg,
    foot_pitch_toe_off_deg: contact.foot_pitch_toe_off_deg,
    foot_progression_deg: contact.foot_progression_deg,
    shank_rotation_deg: contact.shank_rotation_deg,
    shank_angle_touchdown_deg: contact.shank_angle_touchdown_deg,
    vertical_force_bw: step_s && step_s / contact_s,
    vertical_stiffness_kn_per_m: spring && spring.vertical_stiffness_npm / 1000,
    leg_stiffness_kn_per_m: spring && spring.leg_stiffness_npm / 1000,
  };
}

/** Errors of one contact in every field that states its uncertainty and of which the truth is known. */
export function contactErrors(found: Contact, truth: Partial<Record<ContactQuantity, number | null>>): FieldError[] {
  return CONTACT_QUANTITIES.flatMap((field) => {
    const [value, u, reference] = [found[field], found[`${field}_u` as keyof Contact], truth[field] ?? null];
    if (u === undefined || typeof value !== 'number' || reference === null || !Number.isFinite(reference)) return [];
    return [{ field, error: value - reference, stated_u: typeof u === 'number' ? u : Number.NaN }];
  });
}

/** The same for what is said of the whole repetition: first movement, curve, force and power. */
export function repetitionErrors(found: RepetitionResult, truth: TrueRun): FieldError[] {
  const errors: FieldError[] = [];
  const add = (field: string, value: number | null, u: number | null, reference: number | null): void => {
    if (value !== null && u !== null && reference !== null)
      errors.push({ field, error: value - reference, stated_u: u });
  };
  add('first_movement_s', found.first_movement_s, found.first_movement_s_u, truth.first_movement_s);
  const { speed_curve: curve, kinetics } = found;
  if (!curve || truth.time_constant_s === null) return errors;
  add('vmax_mps', curve.vmax_mps, curve.vmax_mps_u, truth.top_speed_mps);
  add('tau_s', curve.tau_s, curve.tau_s_u, truth.time_constant_s);
  const true_curve = { vmax_mps: truth.top_speed_mps, tau_s: truth.time_constant_s };
  const true_kinetics = accelerationKinetics(true_curve, bodyAndAir(CONDITIONS)!);
  if (!kinetics || !true_kinetics) return errors;
  for (const field of Object.keys(true_kinetics) as (keyof KineticQuantities)[]) {
    if (field.endsWith('_n') || field.endsWith('_w')) continue;
    add(field, kinetics[field], kinetics[`${field}_u`], true_kinetics[field]);
  }
  return errors;
}

import { analyse } from '../../../dsp/analyse.ts';
import type { ContactModels } from '../../../dsp/learned/contact-model.ts';
import { LEARNED_MODELS } from '../../../dsp/learned/learned-models.ts';
import { DEFAULT_SETTINGS } from '../../../dsp/settings/settings.ts';
import type { Analysis, Contact } from '../../../shared/analysis.ts';
import { CONDITIONS, contactErrors, type FieldError, repetitionErrors, trueQuantities } from './true-quantities.ts';
import type { ReferenceContact, ValidationCase } from './validation-case.ts';

/** A detected contact nearer than this to a reference contact of the same foot is that contact. */
const SAME_CONTACT_S = 0.08;

/** One error, estimate minus reference, with the uncertainty that the product stated for it. */
export interface StatedError {
  error: number;
  stated_u: number | null;
  /** Speed of the runner at that contact, where the reference knows it. */
  speed_mps: number | null;
  /** The runner was slowing down after the line. */
  slowing: boolean;
}

export const CONTACT_QUANTITIES = ['touchdown', 'toe_off', 'contact_time', 'step_length', 'stride_length'] as const;
export const ANGLES = [
  'foot_pitch_touchdown',
  'foot_pitch_toe_off',
  'foot_progression',
  'shank_rotation',
  'shank_angle_touchdown',
] as const;
export const QUANTITIES = [...CONTACT_QUANTITIES, ...ANGLES] as const;
export type Quantity = (typeof QUANTITIES)[number];

/** Errors of one case: times in ms, lengths in cm, stride length in per cent, angles in degrees. */
export interface CaseResult {
  name: string;
  runner?: string;
  source: ValidationCase['source'];
  set: string;
  mounting: ValidationCase['mounting'];
  rate_hz: number;
  has_gyroscope: boolean;
  variant: string;
  speed_mps: number | null;
  reference: number;
  found: number;
  missed: number;
  extra: number;
  errors: Record<Quantity, StatedError[]>;
  /** Every error in the field's unit with what was stated for it, over all fields that state an uncertainty. */
  stated: FieldError[];
  /** Touchdown of each missed and extra contact: where to look. */
  missed_s: number[];
  extra_s: number[];
  analysis_ms: number;
}

/**
 * Runs the analysis on a case and compares contact by contact.
 * @param models the second stage: of a person, one that never saw that person
 */
export function judgeCase(
  test: ValidationCase,
  models: ContactModels = LEARNED_MODELS,
): { result: CaseResult; analysis: Analysis } {
  const begin = performance.now();
  const analysis = analyse(
    { sensors: test.sensors, course: test.course, conditions: CONDITIONS },
    DEFAULT_SETTINGS,
    models,
  );
  const analysis_ms = performance.now() - begin;
  const detected = analysis.repetitions.flatMap((repetition) => repetition.contacts);
  const { pairs, missed, extra } = match(test, detected);
  const errors = Object.fromEntries(QUANTITIES.map((quantity) => [quantity, []])) as unknown as CaseResult['errors'];
  const stated: FieldError[] = [];
  if (test.run && analysis.repetitions.length > 0) stated.push(...repetitionErrors(analysis.repetitions[0], test.run));
  for (const [truth, contact] of pairs) {
    const index = test.reference.indexOf(truth);
    stated.push(...contactErrors(contact, trueQuantities(test.reference, index, test.course)));
    const add = (
      quantity: Quantity,
      factor: number,
      value: number | null,
      u: number | null,
      reference: number | null,
    ) => {
      if (value === null || reference === null) return;
      errors[quantity].push({
        error: (value - reference) * factor,
        stated_u: u === null ? null : u * factor,
        speed_mps: truth.speed_mps,
        slowing: truth.phase === 'slowing',
      });
    };
    const contact_ms = (truth.toe_off_s - truth.touchdown_s) * 1000;
    add('touchdown', 1000, contact.touchdown_s, contact.touchdown_s_u, truth.touchdown_s);
    add('toe_off', 1000, contact.toe_off_s, contact.toe_off_s_u, truth.toe_off_s);
    add('contact_time', 1, contact.contact_time_ms, contact.contact_time_ms_u, contact_ms);
    add('step_length', 100, contact.step_length_m, contact.step_length_m_u, truth.step_length_m);
    for (const angle of ANGLES) {
      const [field, field_u] = [`${angle}_deg`, `${angle}_deg_u`] as const;
      add(angle, 1, contact[field], contact[field_u], truth[field] ?? null);
    }
    const stride = truth.stride_length_m;
    if (stride) add('stride_length', 100 / stride, contact.stride_length_m, contact.stride_length_m_u, stride);
  }
  const speeds = test.reference.map((contact) => contact.speed_mps ?? Number.NaN).filter(Number.isFinite);
  return {
    analysis,
    result: {
      name: test.name,
      runner: test.runner,
      source: test.source,
      set: test.set,
      mounting: test.mounting,
      rate_hz: test.rate_hz,
      has_gyroscope: test.has_gyroscope,
      variant: test.variant,
      speed_mps: speeds.length > 0 ? Math.max(...speeds) : null,
      reference: test.reference.length,
      found: pairs.length,
      missed: missed.length,
      extra: extra.length,
      errors,
      stated,
      missed_s: missed.map((contact) => contact.touchdown_s),
      extra_s: extra.map((contact) => contact.touchdown_s),
      analysis_ms,
    },
  };
}

function match(test: ValidationCase, detected: Contact[]) {
  const free = new Set(detected);
  const pairs: [ReferenceContact, Contact][] = [];
  const missed: ReferenceContact[] = [];
  for (const truth of test.reference) {
    let best: Contact | null = null;
    for (const contact of free) {
      if (contact.side !== truth.side) continue;
      const distance = Math.abs(contact.touchdown_s - truth.touchdown_s);
      if (distance < SAME_CONTACT_S && (!best || distance < Math.abs(best.touchdown_s - truth.touchdown_s)))
        best = contact;
    }
    if (best) {
      free.delete(best);
      pairs.push([truth, best]);
    } else {
      missed.push(truth);
    }
  }
  const first = test.reference[0]?.touchdown_s ?? 0;
  const last = test.reference[test.reference.length - 1]?.toe_off_s ?? 0;
  const extra = [...free].filter(
    (contact) => test.reference_covers_all || (contact.touchdown_s > first && contact.touchdown_s < last),
  );
  return { pairs, missed, extra };
}

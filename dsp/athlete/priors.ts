/**
 * Variation to go by while an athlete's own is hardly known, from published repeatability. Quantities that nobody
 * published have none: they are judged by the athlete's own variation or not at all.
 */
export interface Prior {
  /** Variation of a repetition's mean however many contacts it has, as a share of the value. */
  common_cv: number;
  /** Variation of one contact beyond that, as a share: falls with the number of contacts. */
  contact_cv: number;
  /** True where the quantity is left minus right: what is common to both sides drops out. */
  difference?: { of: number };
  source: string;
}

/**
 * Step length, step frequency and contact time of 54 boys over two weeks: CV 4.8 % for one step and 3.8 % for the mean
 * of two (the lower ends). 4.8^2 = c^2 + s^2 and 3.8^2 = c^2 + s^2 / 2 give s = 4.1 % a contact, c = 2.4 % in common.
 */
const STEPS = {
  common_cv: 0.024,
  contact_cv: 0.041,
  source:
    'Meyers et al. 2015, Pediatr Exerc Sci 27:419-426: CV 4.8 % for one step, 3.8 % for the mean of two, from which the part that averaging cannot remove is 2.4 %',
};
const GIRARD = {
  common_cv: 0.065,
  contact_cv: 0,
  source: 'Girard et al. 2016, IJSPP 11:432-439: CV of spring-mass values up to 6.5 % between days',
};
/** The larger of contact time and step time while sprinting, ms: makes a share of a side difference an amount. */
const SIDE_OF_MS = { contact_time_ms: 120, step_time_ms: 240 };
const side = (of: number): Prior => ({
  ...STEPS,
  common_cv: 0,
  difference: { of },
  source: `${STEPS.source}; a difference of sides carries only what varies from contact to contact`,
});

const PRIORS: Record<string, Prior> = {
  contact_time_ms: STEPS,
  step_length_m: STEPS,
  stride_length_m: STEPS,
  contact_length_m: STEPS,
  step_rate_hz: STEPS,
  step_time_ms: STEPS,
  stride_time_ms: STEPS,
  speed_mps: {
    common_cv: 0.035,
    contact_cv: 0.031,
    source:
      'Meyers et al. 2015, Pediatr Exerc Sci 27:419-426: speed, CV 4.7 % for one step, 4.15 % for the mean of two',
  },
  speed_max_mps: {
    common_cv: 0.029,
    contact_cv: 0,
    source: 'Haugen and Buchheit 2016, Sports Med 46:641-656: typical error of maximal sprint speed 2.9 %',
  },
  time_s: {
    common_cv: 0.014,
    contact_cv: 0,
    source: 'CV 0.5 to 1.4 % for 0-20 m with a motion-sensor start (Sensors 2025, 25:2077)',
  },
  vertical_stiffness_kn_per_m: GIRARD,
  leg_stiffness_kn_per_m: GIRARD,
  contact_time_side_difference_ms: side(SIDE_OF_MS.contact_time_ms),
  step_time_side_difference_ms: side(SIDE_OF_MS.step_time_ms),
};

/**
 * The published variation of a quantity; null where there is none.
 * @param quantity name of the field
 * @returns shares of the value
 */
export function variationPrior(quantity: string): Prior | null {
  return PRIORS[quantity] ?? null;
}

/**
 * Variances that the published variation leads to expect of a repetition's mean: between days and within one. How the part in
 * common divides between day and repetition is not published; half each is our choice.
 * @param quantity name of the field
 * @param size the quantity's usual value
 * @param contacts how many contacts a repetition's mean rests on
 * @returns variances in the square of the quantity's unit, with where they are from; null where nothing is published
 */
export function priorVariances(
  quantity: string,
  size: number,
  contacts: number,
): { between: number; within: number; source: string } | null {
  const prior = variationPrior(quantity);
  if (!prior) return null;
  const common = (prior.common_cv * size) ** 2;
  // Left minus right: two means of half the contacts each.
  const [of, parts] = prior.difference ? [prior.difference.of, 4] : [Math.abs(size), 1];
  const contact = (parts * (prior.contact_cv * of) ** 2) / Math.max(1, contacts);
  // A difference of sides has a day of its own too; a fifth of its variation, our choice.
  if (prior.difference) return { between: 0.2 * contact, within: 0.8 * contact, source: prior.source };
  return { between: common / 2, within: common / 2 + contact, source: prior.source };
}

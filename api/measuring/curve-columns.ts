import type { RepetitionResult } from '../../shared/analysis.ts';
import { AccelerationKinetics, SpeedCurve } from '../../shared/schemas/analysis.ts';

/** One column of a repetition's fitted curve, for files and exports alike. */
export interface CurveColumn {
  name: string;
  unit: string;
  definition: string;
  source: string;
  decimals: number;
  value: (repetition: Pick<RepetitionResult, 'speed_curve' | 'kinetics'>) => number | null;
}

const SAMOZINO = 'Samozino et al. 2016, doi 10.1111/sms.12490';
const CURVE: Record<string, [unit: string, definition: string]> = {
  vmax_mps: ['m/s', 'Speed that the fitted curve v(t) = vmax (1 - exp(-(t - t0)/tau)) tends to.'],
  tau_s: ['s', 'Time constant of the fitted curve.'],
  time_shift_s: ['s', 'Clock zero minus first movement; 0 when the clock starts with the movement.'],
};
const KINETICS: Record<string, [unit: string, definition: string]> = {
  horizontal_force_f0_n: ['N', 'Horizontal force at no speed, F0, of the force-speed line.'],
  horizontal_force_f0_n_per_kg: ['N/kg', 'F0 over body mass.'],
  velocity_v0_mps: ['m/s', 'Speed at no horizontal force, v0, of the force-speed line.'],
  power_max_w: ['W', 'Greatest horizontal power, F0 v0 / 4.'],
  power_max_w_per_kg: ['W/kg', 'Greatest horizontal power over body mass.'],
  ratio_of_force_max: ['1', 'Greatest ratio of horizontal to total force, from 0.3 s on.'],
  ratio_of_force_slope: ['s/m', 'Fall of the ratio of force with speed.'],
  force_velocity_slope: ['N s/m/kg', 'Slope of the force-speed line over body mass.'],
};

const PRIORS = {
  f0_prior_u_share:
    'Relative change of F0 when what the fit supposes beforehand (start of the clock; the time constant, where one time stands alone) is one standard uncertainty higher; part of its stated uncertainty, and without one of its own.',
  f0_prior_pull_share:
    'By how much that pulled F0 from what times and strides give by themselves, relative; empty where these settle no curve. Without an uncertainty of its own.',
};

function pair(
  name: string,
  [unit, definition]: [string, string],
  source: string,
  of: (repetition: Parameters<CurveColumn['value']>[0]) => object | null,
): CurveColumn[] {
  const column = (field: string, says: string, from: string): CurveColumn => ({
    name: field,
    unit,
    definition: says,
    source: from,
    decimals: 6,
    value: (repetition) => ((of(repetition) as Record<string, number> | null)?.[field] ?? null) as number | null,
  });
  return [
    column(name, definition, source),
    column(`${name}_u`, `Standard uncertainty of ${name}: one standard deviation of its error.`, 'JCGM 100:2008 (GUM)'),
  ];
}

/** The curve's parameters and what follows from them, each with its standard uncertainty; null where no curve was fitted. */
export const CURVE_COLUMNS: readonly CurveColumn[] = [
  ...Object.keys(SpeedCurve.properties).flatMap((name) =>
    CURVE[name] ? pair(name, CURVE[name], SAMOZINO, ({ speed_curve }) => speed_curve) : [],
  ),
  {
    name: 'curve_residual_s',
    unit: 's',
    definition:
      'Root mean square of what the fitted curve leaves of the times; says how well it fits and has no uncertainty of its own.',
    source: 'own definition',
    decimals: 6,
    value: ({ speed_curve }) => speed_curve?.residual_s ?? null,
  },
  ...Object.keys(AccelerationKinetics.properties).flatMap((name) =>
    KINETICS[name] ? pair(name, KINETICS[name], SAMOZINO, ({ kinetics }) => kinetics) : [],
  ),
];

/** What the fit supposed beforehand, and what that does to F0; in files they stand at the end, since they came later. */
export const PRIOR_COLUMNS: readonly CurveColumn[] = (['f0_prior_u_share', 'f0_prior_pull_share'] as const).map(
  (name) => ({
    name,
    unit: '1',
    definition: PRIORS[name],
    source: 'own definition',
    decimals: 4,
    value: ({ speed_curve }) => speed_curve?.[name] ?? null,
  }),
);

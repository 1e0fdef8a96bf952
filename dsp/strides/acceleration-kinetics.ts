import type { Conditions, KineticQuantities } from '../../shared/analysis.ts';
import { STANDARD_GRAVITY_MPS2 } from '../../shared/units.ts';
import { accelerationAt, type SprintCurve, speedAt } from '../fit/sprint-curve.ts';
import { fitLine } from '../numeric/least-squares.ts';

const MMHG_PER_HPA = 760 / 1013.25;
const DRAG_COEFFICIENT = 0.9;
/** The grid on which the force-speed line is fitted: it weights late samples, so it belongs to the method. */
const GRID_S = 0.01;
const GRID_END_S = 5;
/** The ratio of force means something from here on (Samozino 2016). */
const RATIO_FROM_S = 0.3;

export interface AirAndBody {
  body_mass_kg: number;
  stature_m: number;
  temperature_c: number;
  pressure_hpa: number;
  /** Positive from behind. */
  wind_mps: number;
  gravity_mps2?: number;
}

/**
 * Drag constant k of drag = k (v - wind)^2, kg/m: half the air's density times frontal area times drag coefficient.
 * Density from pressure and temperature, area from stature and mass (26.6 % of the body's surface).
 * Source: Samozino 2016, doi 10.1111/sms.12490; surface: DuBois and DuBois 1916 (from memory).
 * @returns kg/m
 */
export function dragConstant({ body_mass_kg, stature_m, temperature_c, pressure_hpa }: AirAndBody): number {
  const density = 1.293 * ((pressure_hpa * MMHG_PER_HPA) / 760) * (273 / (273 + temperature_c));
  const area = 0.2025 * stature_m ** 0.725 * body_mass_kg ** 0.425 * 0.266;
  return 0.5 * density * area * DRAG_COEFFICIENT;
}

/**
 * Forces at t seconds from the first movement. Vertical force is body weight (mean over a step).
 * @param t s
 */
export function forcesAt(curve: SprintCurve, t: number, body: AirAndBody) {
  const g = body.gravity_mps2 ?? STANDARD_GRAVITY_MPS2;
  const speed_mps = speedAt(curve, t);
  const against = speed_mps - body.wind_mps;
  const drag_n = dragConstant(body) * Math.abs(against) * against;
  const horizontal_force_n = body.body_mass_kg * accelerationAt(curve, t) + drag_n;
  return {
    speed_mps,
    drag_n,
    horizontal_force_n,
    power_w: horizontal_force_n * speed_mps,
    ratio_of_force: horizontal_force_n / Math.hypot(horizontal_force_n, body.body_mass_kg * g),
  };
}

/**
 * Horizontal force, power and their lines from the acceleration curve. The force-speed line is an ordinary
 * least-squares line over t = 0, 0.01 ... 5 s; power_max = F0 v0 / 4; the ratio of force is taken from 0.3 s on.
 * Source: Samozino et al. 2016, doi 10.1111/sms.12490; Morin et al. 2019, doi 10.1016/j.jbiomech.2019.07.020.
 * @returns null where horizontal force does not fall with speed
 */
export function accelerationKinetics(curve: SprintCurve, body: AirAndBody): KineticQuantities | null {
  const samples = Array.from({ length: Math.round(GRID_END_S / GRID_S) + 1 }, (_, i) =>
    forcesAt(curve, i * GRID_S, body),
  );
  const late = samples.slice(Math.round(RATIO_FROM_S / GRID_S));
  const force = fitLine(
    samples.map((s) => s.speed_mps),
    samples.map((s) => s.horizontal_force_n),
  );
  const ratio = fitLine(
    late.map((s) => s.speed_mps),
    late.map((s) => s.ratio_of_force),
  );
  if (!force || !ratio || !(force.slope < 0)) return null;
  const f0 = force.intercept;
  const v0 = -f0 / force.slope;
  const power = (f0 * v0) / 4;
  return {
    horizontal_force_f0_n: f0,
    horizontal_force_f0_n_per_kg: f0 / body.body_mass_kg,
    velocity_v0_mps: v0,
    power_max_w: power,
    power_max_w_per_kg: power / body.body_mass_kg,
    ratio_of_force_max: late[0].ratio_of_force,
    ratio_of_force_slope: ratio.slope,
    force_velocity_slope: force.slope,
  };
}

/**
 * Standard air where nobody measured it: 20 degrees, 1013.25 hPa, no wind; null without mass or stature.
 * @returns kg, m, hPa, degrees and m/s
 */
export function bodyAndAir(conditions: Conditions): AirAndBody | null {
  const { body_mass_kg, stature_m, temperature_c, pressure_hpa, wind_mps } = conditions;
  if (body_mass_kg === null || stature_m === null) return null;
  return {
    body_mass_kg,
    stature_m,
    temperature_c: temperature_c ?? 20,
    pressure_hpa: pressure_hpa ?? 1013.25,
    wind_mps: wind_mps ?? 0,
  };
}

import type { AccelerationKinetics, Conditions, KineticQuantities, SpeedCurve } from '../../shared/analysis.ts';
import type { StrideSettings } from '../settings/strides.ts';
import { type AirAndBody, accelerationKinetics } from './acceleration-kinetics.ts';

/** An acceleration curve with what is known of its parameters. */
export interface UncertainCurve extends Pick<SpeedCurve, 'vmax_mps' | 'vmax_mps_u' | 'tau_s' | 'tau_s_u'> {
  /** Covariance of vmax and tau, m. */
  covariance_m: number;
}

/**
 * Force, power and their lines with standard uncertainties: first-order propagation (GUM, JCGM 100:2008, 5.2.2) of the
 * curve's two parameters, which err together, of wind and of the air's density, and the method's own error against force
 * plates. Body mass and stature are taken as given: without them there is nothing to say.
 * @returns null where the curve gives no falling force-speed line
 */
export function uncertainKinetics(
  curve: UncertainCurve,
  body: AirAndBody,
  conditions: Conditions,
  settings: StrideSettings,
): AccelerationKinetics | null {
  const at = accelerationKinetics(curve, body);
  if (!at) return null;
  const { method_share_u, wind_mps_u, temperature_c_u, pressure_hpa_u } = settings.kinetics;
  const air: [keyof AirAndBody, number][] = [
    ['wind_mps', conditions.wind_mps === null ? wind_mps_u.unknown : wind_mps_u.gauge],
    ['temperature_c', conditions.temperature_c === null ? temperature_c_u.unknown : temperature_c_u.measured],
    ['pressure_hpa', conditions.pressure_hpa === null ? pressure_hpa_u.unknown : pressure_hpa_u.measured],
  ];
  const moved = (change: Partial<UncertainCurve & AirAndBody>): KineticQuantities | null =>
    accelerationKinetics({ ...curve, ...change }, { ...body, ...change });
  const byCurve = (['vmax_mps', 'tau_s'] as const).map((name) => moved({ [name]: curve[name] * (1 + STEP) }));
  const byAir = air.map(([name, u]) => moved({ [name]: (body[name] ?? 0) + u }));
  const result = { ...at } as AccelerationKinetics;
  for (const field of Object.keys(at) as (keyof KineticQuantities)[]) {
    const [v, t] = [
      ((byCurve[0]?.[field] ?? Number.NaN) - at[field]) / (STEP * curve.vmax_mps),
      ((byCurve[1]?.[field] ?? Number.NaN) - at[field]) / (STEP * curve.tau_s),
    ];
    const parameters = (v * curve.vmax_mps_u) ** 2 + (t * curve.tau_s_u) ** 2 + 2 * v * t * curve.covariance_m;
    result[`${field}_u`] = Math.hypot(
      Math.sqrt(Math.max(0, parameters)),
      ...byAir.map((there) => (there?.[field] ?? Number.NaN) - at[field]),
      method_share_u * at[field],
    );
  }
  return result;
}

/** Relative step of the numerical derivatives. */
const STEP = 1e-4;

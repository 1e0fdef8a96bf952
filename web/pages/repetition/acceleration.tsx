import type { RepetitionResult, SpeedCurve } from '../../../shared/analysis.ts';
import { formatNumber } from '../../app/format.ts';

const FROM_WORDS: Record<SpeedCurve['from'], string> = {
  splits: 'the splits',
  'time and steps': 'the time over the course and the steps',
  foot_sensor: 'the foot sensors',
  combined: 'the times and the foot sensors together',
};

/** Figures of the acceleration: the fitted speed curve, and force and power where mass and stature are known. */
export function Acceleration({ result }: { result: RepetitionResult }) {
  const { speed_curve: curve, kinetics } = result;
  if (!curve) return null;
  // Analyses stored by earlier versions have no uncertainty of force and power.
  const plusMinus = (value: number, u: number | undefined, decimals: number, unit: string) =>
    u === undefined || Number.isNaN(u)
      ? `${formatNumber(value, decimals)} ${unit}`
      : `${formatNumber(value, decimals)} ± ${formatNumber(1.96 * u, decimals)} ${unit}`;
  return (
    <section aria-labelledby="acceleration-head">
      <h2 id="acceleration-head">Acceleration</h2>
      <div class="sheet">
        <dl class="pairs">
          <dt>top speed of the fitted curve</dt>
          <dd>{plusMinus(curve.vmax_mps, curve.vmax_mps_u, 2, 'm/s')}</dd>
          <dt>time constant</dt>
          <dd>{plusMinus(curve.tau_s, curve.tau_s_u, 2, 's')}: after it, 63 % of that speed</dd>
          {kinetics && (
            <>
              <dt>horizontal force at the start</dt>
              <dd>
                {plusMinus(kinetics.horizontal_force_f0_n_per_kg, kinetics.horizontal_force_f0_n_per_kg_u, 1, 'N/kg')}
              </dd>
              <dt>speed at which force ends</dt>
              <dd>{plusMinus(kinetics.velocity_v0_mps, kinetics.velocity_v0_mps_u, 1, 'm/s')}</dd>
              <dt>greatest power</dt>
              <dd>{plusMinus(kinetics.power_max_w_per_kg, kinetics.power_max_w_per_kg_u, 1, 'W/kg')}</dd>
              <dt>greatest ratio of force forward</dt>
              <dd>{plusMinus(100 * kinetics.ratio_of_force_max, 100 * kinetics.ratio_of_force_max_u, 0, '%')}</dd>
            </>
          )}
        </dl>
        <p class="small quiet">
          Found from {FROM_WORDS[curve.from]}.
          {kinetics
            ? ' Force and power are estimates of a simple model; their errors hold the curve, the air and the model.'
            : ' Force and power need the body mass and stature of the athlete.'}
        </p>
      </div>
    </section>
  );
}

import { repetitionWords } from '../../../shared/messages/en/view/repetition.ts';
import { phrasesOf } from '../../app/language.ts';
import type { RepetitionResult, SpeedCurve } from '../../../shared/analysis.ts';
import { formatNumber } from '../../app/format.ts';

const t = phrasesOf('repetition', repetitionWords);

const FROM_WORDS = {
  splits: 'from_splits',
  'time and steps': 'from_time_and_steps',
  foot_sensor: 'from_foot_sensor',
  combined: 'from_combined',
} as const satisfies Record<SpeedCurve['from'], string>;

/** Less than a per cent of F0 says nothing beside its ±. */
const WORTH_TELLING = 0.01;

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
    <section class="no-print" aria-labelledby="acceleration-head">
      <h2 id="acceleration-head">{t('acceleration')}</h2>
      <div class="sheet">
        <dl class="pairs">
          <dt>{t('curve_top_speed')}</dt>
          <dd>{plusMinus(curve.vmax_mps, curve.vmax_mps_u, 2, 'm/s')}</dd>
          <dt>{t('time_constant')}</dt>
          <dd>
            {plusMinus(curve.tau_s, curve.tau_s_u, 2, 's')}
            {t('after_time_constant')}
          </dd>
          {kinetics && (
            <>
              <dt>{t('force_at_start')}</dt>
              <dd>
                {plusMinus(kinetics.horizontal_force_f0_n_per_kg, kinetics.horizontal_force_f0_n_per_kg_u, 1, 'N/kg')}
              </dd>
              <dt>{t('speed_force_ends')}</dt>
              <dd>{plusMinus(kinetics.velocity_v0_mps, kinetics.velocity_v0_mps_u, 1, 'm/s')}</dd>
              <dt>{t('greatest_power')}</dt>
              <dd>{plusMinus(kinetics.power_max_w_per_kg, kinetics.power_max_w_per_kg_u, 1, 'W/kg')}</dd>
              <dt>{t('greatest_ratio')}</dt>
              <dd>{plusMinus(100 * kinetics.ratio_of_force_max, 100 * kinetics.ratio_of_force_max_u, 0, '%')}</dd>
            </>
          )}
        </dl>
        <p class="small quiet">
          {t('found_from', { from: t(FROM_WORDS[curve.from]) })}
          {kinetics ? t('estimates') : t('needs_body')}
          {kinetics && curve.f0_prior_u_share !== undefined && curve.f0_prior_u_share >= WORTH_TELLING
            ? t('rests_on', { percent: formatNumber(100 * curve.f0_prior_u_share, 0) })
            : ''}
          {kinetics && Math.abs(curve.f0_prior_pull_share ?? 0) >= WORTH_TELLING
            ? t('pulled_by', { percent: formatNumber(100 * curve.f0_prior_pull_share!, 0) })
            : ''}
        </p>
      </div>
    </section>
  );
}

import { phrasesOf, speech } from '../../app/language.ts';
import { liveWords } from '../../../shared/messages/en/view/live.ts';
import type { SpeedCheck } from '../../../shared/schemas/capture.ts';
import { formatQuantity } from '../../app/format.ts';
import { SelectField } from '../../parts/select-field.tsx';
import type { LiveResult } from './use-capture.ts';

const t = phrasesOf('live', liveWords);

interface ChecksSectionProps {
  checks: SpeedCheck[];
  /** Newest first. */
  results: LiveResult[];
  athletes: readonly { athlete_id: number; name: string }[];
  busy: boolean;
  onWearer: (sensor_id: string, athlete_id: number | null) => void;
  onEnd: (sensor_id: string) => void;
}

const stateWords = (): Record<SpeedCheck['state'], string> => ({
  connecting: t('connecting'),
  silent: t('connected_nothing_told_lately'),
  live: t('live_2'),
});

/** Sensors that tell speed and cadence by the standard service: their word beside ours. */
export function ChecksSection({ checks, results, athletes, busy, onWearer, onEnd }: ChecksSectionProps) {
  if (checks.length === 0) return null;
  return (
    <section class="sheet" aria-label={t('checks')}>
      <h2>{t('a_check_beside_ours')}</h2>
      <p>{t('what_these_sensors_tell_by')}</p>
      {checks.map((check) => {
        const ours = results.find((result) => result.athlete_id === check.athlete_id && result.step_rate_hz !== null);
        return (
          <div key={check.sensor_id} class="check">
            <h3>
              {check.name}{' '}
              <span class="quiet small">
                {stateWords()[check.state]}
                {check.reason ? `: ${speech.value.notice(check.reason)}` : ''}
              </span>
            </h3>
            <dl class="live-figures">
              <Figure label={t('speed_theirs')} value={formatQuantity('speed_mps', check.speed_mps)} />
              <Figure label={t('step_rate_theirs')} value={stepRate(check)} />
              <Figure
                label={t('step_rate_ours_latest_result')}
                value={formatQuantity('step_rate_hz', ours?.step_rate_hz ?? null)}
              />
            </dl>
            <SelectField
              label={t('worn_by')}
              value={check.athlete_id === null ? '' : String(check.athlete_id)}
              options={[
                { value: '', label: t('nobody_named') },
                ...athletes.map(({ athlete_id, name }) => ({ value: String(athlete_id), label: name })),
              ]}
              onChange={(value) => onWearer(check.sensor_id, value === '' ? null : Number(value))}
            />
            <button type="button" disabled={busy} onClick={() => onEnd(check.sensor_id)}>
              {t('let_go')}
            </button>
          </div>
        );
      })}
    </section>
  );
}

/** Devices count steps or strides in the same byte; where it cannot be told, the number is shown as it came. */
function stepRate({ step_rate_hz, cadence_per_min }: SpeedCheck): string {
  if (step_rate_hz !== null || cadence_per_min === null) return formatQuantity('step_rate_hz', step_rate_hz);
  return t('a_minute_of_steps_or', { cadence_per_min });
}

function Figure({ label, value }: { label: string; value: string }) {
  return (
    <div>
      <dt>{label}</dt>
      <dd>{value}</dd>
    </div>
  );
}

import type { SpeedCheck } from '../../../shared/schemas/capture.ts';
import { formatQuantity } from '../../app/format.ts';
import { SelectField } from '../../parts/select-field.tsx';
import type { LiveResult } from './use-capture.ts';

interface ChecksSectionProps {
  checks: SpeedCheck[];
  /** Newest first. */
  results: LiveResult[];
  athletes: readonly { athlete_id: number; name: string }[];
  busy: boolean;
  onWearer: (sensor_id: string, athlete_id: number | null) => void;
  onEnd: (sensor_id: string) => void;
}

const STATE_WORDS: Record<SpeedCheck['state'], string> = {
  connecting: 'connecting',
  silent: 'connected, nothing told lately',
  live: 'live',
};

/** Sensors that tell speed and cadence by the standard service: their word beside ours. */
export function ChecksSection({ checks, results, athletes, busy, onWearer, onEnd }: ChecksSectionProps) {
  if (checks.length === 0) return null;
  return (
    <section class="sheet" aria-label="Checks">
      <h2>A check beside ours</h2>
      <p>
        What these sensors tell by the standard service Running Speed and Cadence. They mean over seconds and tell about
        once a second; nothing of it enters a result.
      </p>
      {checks.map((check) => {
        const ours = results.find((result) => result.athlete_id === check.athlete_id && result.step_rate_hz !== null);
        return (
          <div key={check.sensor_id} class="check">
            <h3>
              {check.name}{' '}
              <span class="quiet small">
                {STATE_WORDS[check.state]}
                {check.reason ? `: ${check.reason}` : ''}
              </span>
            </h3>
            <dl class="live-figures">
              <Figure label="speed, theirs" value={formatQuantity('speed_mps', check.speed_mps)} />
              <Figure label="step rate, theirs" value={stepRate(check)} />
              <Figure
                label="step rate, ours (latest result)"
                value={formatQuantity('step_rate_hz', ours?.step_rate_hz ?? null)}
              />
            </dl>
            <SelectField
              label="Worn by"
              value={check.athlete_id === null ? '' : String(check.athlete_id)}
              options={[
                { value: '', label: 'nobody named' },
                ...athletes.map(({ athlete_id, name }) => ({ value: String(athlete_id), label: name })),
              ]}
              onChange={(value) => onWearer(check.sensor_id, value === '' ? null : Number(value))}
            />
            <button type="button" disabled={busy} onClick={() => onEnd(check.sensor_id)}>
              Let go
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
  return `${cadence_per_min} a minute, of steps or strides`;
}

function Figure({ label, value }: { label: string; value: string }) {
  return (
    <div>
      <dt>{label}</dt>
      <dd>{value}</dd>
    </div>
  );
}

import { useCallback, useState } from 'preact/hooks';
import type { PairedSensor, SensorPlaceChange } from '../../../shared/schemas/capture.ts';
import type { StreamDescription } from '../../../shared/schemas/stream-description.ts';
import { MOUNTINGS, type Mounting, SIDES, type Side } from '../../../shared/words.ts';
import type { Directory } from '../../app/directory.ts';
import { Choice } from '../../parts/choice.tsx';
import { SelectField } from '../../parts/select-field.tsx';
import { live } from './live-api.ts';
import type { SignalRing } from './signal-ring.ts';
import { SignalStrip } from './signal-strip.tsx';
import { useChosenPlace } from './use-chosen-place.ts';

/** A tap is shown this long, seconds. */
const TAP_SHOWN_S = 2.5;

const STATE_WORDS: Record<PairedSensor['state'], string> = {
  off: 'not connected',
  connecting: 'connecting',
  live: 'live',
  silent: 'no data',
  lost: 'link lost',
};

interface SensorCardProps {
  sensor: PairedSensor;
  recording: boolean;
  replay: boolean;
  directory: Directory;
  description: StreamDescription | undefined;
  ring: (sensor_id: string) => SignalRing | undefined;
  onPlace: (sensor_id: string, change: SensorPlaceChange) => Promise<void>;
  onForget: (sensor_id: string) => void;
}

/** One sensor: whose, which side, how it is doing, what it feels just now. */
export function SensorCard(props: SensorCardProps) {
  const { recording, replay, directory, description, ring, onPlace, onForget } = props;
  const { sensor_id } = props.sensor;
  const { shown: sensor, place } = useChosenPlace(props.sensor, (change) => onPlace(sensor_id, change));
  const ownRing = useCallback(() => ring(sensor_id), [ring, sensor_id]);
  const tapped = sensor.tap_s !== null && sensor.tap_s < TAP_SHOWN_S;
  return (
    <section class={`sheet sensor-card state-${sensor.state}`} aria-label={`Sensor ${sensor.name}`}>
      <div class="sensor-head">
        <h3>
          {sensor.name}
          <span class="sensor-place">
            {sensor.side === 'unknown' ? 'side not set' : sensor.side}, {sensor.mounting}
            {sensor.athlete_name ? `, ${sensor.athlete_name}` : ''}
          </span>
        </h3>
        <p class="sensor-state">
          <StateMark state={sensor.state} /> {STATE_WORDS[sensor.state]}
        </p>
      </div>
      {sensor.words && <p class="sensor-words">{sensor.words}</p>}
      {recording && (
        <>
          <SignalStrip name={sensor.name} ring={ownRing} />
          {tapped && <p class="sensor-tap">Tapped just now</p>}
          <Numbers sensor={sensor} />
        </>
      )}
      {!replay && (
        <details open={sensor.side === 'unknown' || sensor.athlete_id === null}>
          <summary>Where it is worn</summary>
          <Choice
            legend="Side"
            value={sensor.side}
            options={SIDES.map((value: Side) => ({ value, label: value === 'unknown' ? 'not set' : value }))}
            onChange={(side) => place({ side })}
          />
          <Choice
            legend="Mounting"
            value={sensor.mounting}
            options={MOUNTINGS.map((value: Mounting) => ({ value, label: value }))}
            onChange={(mounting) => place({ mounting })}
          />
          <SelectField
            label="Athlete"
            value={String(sensor.athlete_id ?? '')}
            options={[
              { value: '', label: 'nobody yet' },
              ...(directory.athletes.value?.items ?? []).map((athlete) => ({
                value: String(athlete.athlete_id),
                label: athlete.name,
              })),
            ]}
            onChange={(value) => place({ athlete_id: value === '' ? null : Number(value) })}
          />
          {!recording && description && <SettingsFields sensor={sensor} description={description} onPlace={place} />}
          {!recording && description?.recordings && <Memory sensor={sensor} onPlace={place} />}
          {!recording && (
            <button type="button" class="plain" onClick={() => onForget(sensor_id)}>
              Forget this sensor
            </button>
          )}
        </details>
      )}
    </section>
  );
}

/** The sensor's own memory: record into it as well, and fetch what is there. */
function Memory({ sensor, onPlace }: { sensor: PairedSensor; onPlace: (change: SensorPlaceChange) => void }) {
  const [said, setSaid] = useState('');
  const fetchAll = async () => {
    setSaid('Fetching ...');
    try {
      const { capture_ids, stored } = await live.fetchRecordings(sensor.sensor_id);
      setSaid(
        `${capture_ids.length} recordings are kept (see Captures); ${stored} repetitions were found in new ones.`,
      );
    } catch (error) {
      setSaid(error instanceof Error ? error.message : String(error));
    }
  };
  return (
    <>
      <label>
        <input
          type="checkbox"
          checked={sensor.record_on_sensor ?? false}
          onChange={(event) => onPlace({ record_on_sensor: event.currentTarget.checked })}
        />{' '}
        Record into its own memory as well
      </label>
      <button type="button" onClick={fetchAll}>
        Fetch what it has recorded
      </button>
      {said && <p role="status">{said}</p>}
    </>
  );
}

/** Full, half or empty: told apart by shape, not by colour. */
function StateMark({ state }: { state: PairedSensor['state'] }) {
  return (
    <svg width="18" height="18" viewBox="0 0 18 18" aria-hidden="true" class="state-mark">
      <circle cx="9" cy="9" r="7" fill="none" stroke="currentColor" stroke-width="2.5" />
      {state === 'live' && <circle cx="9" cy="9" r="4" fill="currentColor" />}
      {state === 'silent' && <path d="M9 5a4 4 0 0 1 0 8z" fill="currentColor" />}
      {state === 'lost' && <path d="M5 5L13 13M13 5L5 13" stroke="currentColor" stroke-width="2.5" />}
    </svg>
  );
}

function Numbers({ sensor }: { sensor: PairedSensor }) {
  const all = sensor.samples + sensor.lost_samples;
  const lost = all === 0 ? 0 : (100 * sensor.lost_samples) / all;
  return (
    <dl class="sensor-numbers">
      <div>
        <dt>battery</dt>
        <dd>{sensor.battery_percent === null ? '–' : `${sensor.battery_percent} %`}</dd>
      </div>
      <div>
        <dt>lost</dt>
        <dd>{sensor.lost_samples === 0 ? 'none' : `${lost.toFixed(lost < 1 ? 2 : 1)} %`}</dd>
      </div>
      <div>
        <dt>rate</dt>
        <dd>
          {sensor.measured_rate_hz === null
            ? `${sensor.settings.rate_hz} Hz set`
            : `${sensor.measured_rate_hz.toFixed(1)} Hz`}
        </dd>
      </div>
      <div>
        <dt>drift</dt>
        <dd>{sensor.drift_ppm === null ? '–' : `${sensor.drift_ppm.toFixed(0)} ppm`}</dd>
      </div>
      <div>
        <dt>clock</dt>
        <dd>{sensor.clock_u_ms === null ? '–' : `± ${(1.96 * sensor.clock_u_ms).toFixed(0)} ms`}</dd>
      </div>
      <div>
        <dt>signal</dt>
        <dd>{sensor.rssi_dbm === null ? '–' : `${sensor.rssi_dbm} dBm`}</dd>
      </div>
    </dl>
  );
}

interface SettingsFieldsProps {
  sensor: PairedSensor;
  description: StreamDescription;
  onPlace: (change: SensorPlaceChange) => void;
}

/** Rate and ranges that the sensor's description offers. */
function SettingsFields({ sensor: { settings }, description, onPlace }: SettingsFieldsProps) {
  const { acc, gyr, rates } = description;
  const change = (part: Partial<typeof settings>) => onPlace({ settings: part });
  const option = (value: number, unit: string) => ({ value: String(value), label: `${value} ${unit}` });
  return (
    <div class="field-grid">
      <SelectField
        label="Rate"
        value={String(settings.rate_hz)}
        options={rates.map(({ rate_hz }) => option(rate_hz, 'Hz'))}
        onChange={(value) => change({ rate_hz: Number(value) })}
      />
      <SelectField
        label="Acceleration up to"
        value={String(settings.acc_full_scale)}
        options={acc.ranges.map(({ full_scale }) => option(full_scale, acc.unit === 'g' ? 'g' : 'm/s²'))}
        onChange={(value) => change({ acc_full_scale: Number(value) })}
      />
      {gyr && (
        <SelectField
          label="Rotation up to"
          value={String(settings.gyr_full_scale)}
          options={gyr.ranges.map(({ full_scale }) => option(full_scale, gyr.unit === 'dps' ? 'deg/s' : 'rad/s'))}
          onChange={(value) => change({ gyr_full_scale: Number(value) })}
        />
      )}
    </div>
  );
}

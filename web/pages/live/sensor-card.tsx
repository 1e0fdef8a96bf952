import { formatNumber } from '../../app/format.ts';
import { phrasesOf, speech } from '../../app/language.ts';
import { commonWords } from '../../../shared/messages/en/view/common.ts';
import { liveWords } from '../../../shared/messages/en/view/live.ts';
import { useCallback, useState } from 'preact/hooks';
import type { PairedSensor, SensorPlaceChange } from '../../../shared/schemas/capture.ts';
import type { StreamDescription } from '../../../shared/schemas/stream-description.ts';
import { SIDES } from '../../../shared/words.ts';
import type { Directory } from '../../app/directory.ts';
import { mountingChoices } from '../../app/mounting-words.ts';
import { Choice } from '../../parts/choice.tsx';
import { SelectField } from '../../parts/select-field.tsx';
import { live } from './live-api.ts';
import type { SignalRing } from './signal-ring.ts';
import { SignalStrip } from './signal-strip.tsx';
import { useChosenPlace } from './use-chosen-place.ts';

const t = phrasesOf('live', liveWords);
const common = phrasesOf('common', commonWords);

/** A tap is shown this long, seconds. */
const TAP_SHOWN_S = 2.5;

const stateWords = (): Record<PairedSensor['state'], string> => ({
  off: t('not_connected'),
  connecting: t('connecting'),
  live: t('live_2'),
  silent: t('no_data'),
  lost: t('link_lost'),
});

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
  const unplaced = sensor.side === 'unknown' || sensor.athlete_id === null;
  // Its settings and its memory are set next to where it is worn: it stays open for these.
  const [opened, setOpened] = useState(false);
  const tapped = sensor.tap_s !== null && sensor.tap_s < TAP_SHOWN_S;
  return (
    <section class={`sheet sensor-card state-${sensor.state}`} aria-label={t('sensor_3', { name: sensor.name })}>
      <div class="sensor-head">
        <h3>
          {sensor.name}
          <span class="sensor-place">
            {sensor.side === 'unknown' ? t('side_not_set') : common(sensor.side)}, {common(`place_${sensor.mounting}`)}
            {sensor.athlete_name ? `, ${sensor.athlete_name}` : ''}
          </span>
        </h3>
        <p class="sensor-state">
          <StateMark state={sensor.state} /> {stateWords()[sensor.state]}
        </p>
      </div>
      {sensor.words && <p class="sensor-words">{speech.value.notice(sensor.words)}</p>}
      {recording && (
        <>
          <SignalStrip name={sensor.name} ring={ownRing} />
          {tapped && <p class="sensor-tap">{t('tapped_just_now')}</p>}
          <Numbers sensor={sensor} />
        </>
      )}
      {!replay && (
        <details open={unplaced || (opened && !recording)} onToggle={(event) => setOpened(event.currentTarget.open)}>
          <summary>{t('where_it_is_worn')}</summary>
          <Choice
            legend={t('side')}
            value={sensor.side}
            options={SIDES.map((value) => ({ value, label: value === 'unknown' ? t('not_set') : common(value) }))}
            onChange={(side) => place({ side })}
          />
          <Choice
            legend={t('mounting')}
            value={sensor.mounting}
            options={mountingChoices()}
            onChange={(mounting) => place({ mounting })}
          />
          <SelectField
            label={common('athlete_3')}
            value={String(sensor.athlete_id ?? '')}
            options={[
              { value: '', label: t('nobody_yet') },
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
              {t('forget_this_sensor')}
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
    setSaid(t('fetching'));
    try {
      const { capture_ids, stored, waiting } = await live.fetchRecordings(sensor.sensor_id);
      const kept = t('kept_see_captures_found_in', { n_capture_ids: capture_ids.length, stored });
      setSaid([kept, ...waiting.map((why) => speech.value.notice(why))].join(' '));
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
        />
        {t('record_into_its_own_memory')}
      </label>
      <button type="button" onClick={fetchAll}>
        {t('fetch_what_it_has_recorded')}
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
        <dt>{t('battery')}</dt>
        <dd>{sensor.battery_percent === null ? '–' : `${sensor.battery_percent} %`}</dd>
      </div>
      <div>
        <dt>{common('lost')}</dt>
        <dd>{sensor.lost_samples === 0 ? t('none') : `${formatNumber(lost, lost < 1 ? 2 : 1)} %`}</dd>
      </div>
      <div>
        <dt>{common('rate')}</dt>
        <dd>
          {sensor.measured_rate_hz === null
            ? t('hz_set', { rate_hz: sensor.settings.rate_hz })
            : `${formatNumber(sensor.measured_rate_hz, 1)} Hz`}
        </dd>
      </div>
      <div>
        <dt>{t('drift')}</dt>
        <dd>{sensor.drift_ppm === null ? '–' : `${formatNumber(sensor.drift_ppm, 0)} ppm`}</dd>
      </div>
      <div>
        <dt>{common('clock')}</dt>
        <dd>{sensor.clock_u_ms === null ? '–' : `± ${formatNumber(1.96 * sensor.clock_u_ms, 0)} ms`}</dd>
      </div>
      <div>
        <dt>{t('signal')}</dt>
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
        label={t('rate')}
        value={String(settings.rate_hz)}
        options={rates.map(({ rate_hz }) => option(rate_hz, 'Hz'))}
        onChange={(value) => change({ rate_hz: Number(value) })}
      />
      <SelectField
        label={t('acceleration_up_to')}
        value={String(settings.acc_full_scale)}
        options={acc.ranges.map(({ full_scale }) => option(full_scale, acc.unit === 'g' ? 'g' : 'm/s²'))}
        onChange={(value) => change({ acc_full_scale: Number(value) })}
      />
      {gyr && (
        <SelectField
          label={t('rotation_up_to')}
          value={String(settings.gyr_full_scale)}
          options={gyr.ranges.map(({ full_scale }) => option(full_scale, gyr.unit === 'dps' ? 'deg/s' : 'rad/s'))}
          onChange={(value) => change({ gyr_full_scale: Number(value) })}
        />
      )}
    </div>
  );
}

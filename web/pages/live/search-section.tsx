import { useState } from 'preact/hooks';
import type { CaptureState, FoundSensor } from '../../../shared/schemas/capture.ts';
import type { StreamDescription } from '../../../shared/schemas/stream-description.ts';
import { SelectField } from '../../parts/select-field.tsx';

interface SearchSectionProps {
  state: CaptureState;
  descriptions: StreamDescription[];
  busy: boolean;
  onSearch: (on: boolean) => void;
  onPair: (sensor_id: string, description_id: string) => void;
  /** Those that can be taken away again. */
  added: string[];
  onRemoveDescription: (id: string) => void;
  /** Shows a sensor that tells speed and cadence as a check. */
  onCheck: (sensor_id: string) => void;
  onDescription: (file: File) => void;
}

/** Looks for sensors near this machine and takes them in. */
export function SearchSection(props: SearchSectionProps) {
  const { state, descriptions, added, busy, onSearch, onPair, onCheck, onDescription, onRemoveDescription } = props;
  const held = new Set(state.checks.map((check) => check.sensor_id));
  const found = state.found.filter((sensor) => !sensor.paired && !held.has(sensor.sensor_id));
  return (
    <section class="sheet" aria-label="Find sensors">
      <h2>Find sensors</h2>
      <p>Switch the sensors on and bring them within 10 m of the machine that runs Cinderlane.</p>
      <button
        type="button"
        class={state.searching ? '' : 'primary'}
        disabled={busy}
        onClick={() => onSearch(!state.searching)}
      >
        {state.searching ? 'Stop looking' : 'Look for sensors'}
      </button>
      {state.searching && found.length === 0 && (
        <p class="quiet" role="status">
          Looking ... nothing new yet.
        </p>
      )}
      {found.length > 0 && (
        <ul class="found-list">
          {found.map((sensor) => (
            <FoundRow
              key={sensor.sensor_id}
              sensor={sensor}
              descriptions={descriptions}
              busy={busy}
              onPair={onPair}
              onCheck={onCheck}
            />
          ))}
        </ul>
      )}
      <details class="description-file">
        <summary>A sensor of another kind</summary>
        <p>
          Any sensor works whose packets are written down in a stream description: a JSON file with its services, packet
          layout, scales and start commands. Known now: {descriptions.map((description) => description.name).join(', ')}
          .
        </p>
        <label class="field">
          <span>Stream description</span>
          <input
            type="file"
            accept="application/json,.json"
            onChange={(event) => {
              const file = event.currentTarget.files?.[0];
              if (file) onDescription(file);
            }}
          />
        </label>
        {added.map((id) => (
          <p class="added-description" key={id}>
            {descriptions.find((description) => description.id === id)?.name ?? id} (added here){' '}
            <button type="button" disabled={busy} onClick={() => onRemoveDescription(id)}>
              Remove {id}
            </button>
          </p>
        ))}
      </details>
    </section>
  );
}

interface FoundRowProps {
  sensor: FoundSensor;
  descriptions: StreamDescription[];
  busy: boolean;
  onPair: (sensor_id: string, description_id: string) => void;
  onCheck: (sensor_id: string) => void;
}

/** One sensor that is heard. Where several descriptions fit it, or none does, the coach says which. */
function FoundRow({ sensor, descriptions, busy, onPair, onCheck }: FoundRowProps) {
  const [chosen, setChosen] = useState<string | null>(null);
  const nameOf = (id: string) => descriptions.find((description) => description.id === id)?.name ?? id;
  const { fitting } = sensor;
  const description_id = chosen ?? sensor.description_id ?? '';
  const offered = fitting.length > 0 ? fitting : descriptions.map((description) => description.id);
  const none = sensor.tells_speed ? 'tells speed and cadence' : 'no stream description fits';
  const fits = fitting.length === 0 ? none : fitting.length === 1 && nameOf(fitting[0]);
  return (
    <li>
      <span>
        <strong>{sensor.name}</strong>
        <span class="quiet small">
          {[strength(sensor.rssi_dbm), fits, sensor.sensor_id].filter(Boolean).join(', ')}
        </span>
        {fitting.length !== 1 && !sensor.tells_speed && (
          <SelectField
            label={fitting.length > 1 ? 'Several descriptions fit' : 'Read it by'}
            value={description_id}
            options={[
              ...(fitting.length > 0 ? [] : [{ value: '', label: 'not chosen' }]),
              ...offered.map((value) => ({ value, label: nameOf(value) })),
            ]}
            onChange={setChosen}
          />
        )}
      </span>
      <button
        type="button"
        disabled={busy || description_id === ''}
        onClick={() => onPair(sensor.sensor_id, description_id)}
      >
        Add
      </button>
      {sensor.tells_speed && (
        <button type="button" disabled={busy} onClick={() => onCheck(sensor.sensor_id)}>
          Show as a check
        </button>
      )}
    </li>
  );
}

function strength(rssi_dbm: number | null): string {
  if (rssi_dbm === null) return '';
  const word = rssi_dbm > -60 ? 'strong' : rssi_dbm > -75 ? 'fair' : 'weak';
  return `${word} signal (${rssi_dbm} dBm)`.replace('-', '−');
}

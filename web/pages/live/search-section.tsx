import type { CaptureState } from '../../../shared/schemas/capture.ts';
import type { StreamDescription } from '../../../shared/schemas/stream-description.ts';

interface SearchSectionProps {
  state: CaptureState;
  descriptions: StreamDescription[];
  busy: boolean;
  onSearch: (on: boolean) => void;
  onPair: (sensor_id: string) => void;
  onDescription: (file: File) => void;
}

/** Looks for sensors near this machine and takes them in. */
export function SearchSection(props: SearchSectionProps) {
  const { state, descriptions, busy, onSearch, onPair, onDescription } = props;
  const found = state.found.filter((sensor) => !sensor.paired);
  const nameOf = (id: string | null) => descriptions.find((description) => description.id === id)?.name;
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
            <li key={sensor.sensor_id}>
              <span>
                <strong>{sensor.name}</strong>
                <span class="quiet small">
                  {[
                    strength(sensor.rssi_dbm),
                    nameOf(sensor.description_id) ?? 'no stream description fits',
                    sensor.sensor_id,
                  ]
                    .filter(Boolean)
                    .join(', ')}
                </span>
              </span>
              <button
                type="button"
                disabled={busy || sensor.description_id === null}
                onClick={() => onPair(sensor.sensor_id)}
              >
                Add
              </button>
            </li>
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
      </details>
    </section>
  );
}

function strength(rssi_dbm: number | null): string {
  if (rssi_dbm === null) return '';
  const word = rssi_dbm > -60 ? 'strong' : rssi_dbm > -75 ? 'fair' : 'weak';
  return `${word} signal (${rssi_dbm} dBm)`.replace('-', '−');
}

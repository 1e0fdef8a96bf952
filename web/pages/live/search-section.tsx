import { phrasesOf } from '../../app/language.ts';
import { commonWords } from '../../../shared/messages/en/view/common.ts';
import { liveWords } from '../../../shared/messages/en/view/live.ts';
import { useState } from 'preact/hooks';
import type { CaptureState, FoundSensor } from '../../../shared/schemas/capture.ts';
import type { StreamDescription } from '../../../shared/schemas/stream-description.ts';
import { SelectField } from '../../parts/select-field.tsx';

const t = phrasesOf('live', liveWords);
const common = phrasesOf('common', commonWords);

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
    <section class="sheet" aria-label={t('find_sensors')}>
      <h2>{t('find_sensors')}</h2>
      <p>{t('switch_the_sensors_on_and')}</p>
      <button
        type="button"
        class={state.searching ? '' : 'primary'}
        disabled={busy}
        onClick={() => onSearch(!state.searching)}
      >
        {state.searching ? t('stop_looking') : t('look_for_sensors')}
      </button>
      {state.searching && found.length === 0 && (
        <p class="quiet" role="status">
          {t('looking_nothing_new_yet')}
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
        <summary>{t('a_sensor_of_another_kind')}</summary>
        <p>
          {t('any_sensor_works_whose_packets', {
            descriptions: descriptions.map((description) => description.name).join(', '),
          })}
        </p>
        <label class="field">
          <span>{t('stream_description')}</span>
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
            {descriptions.find((description) => description.id === id)?.name ?? id}
            {t('added_here')}
            <button type="button" disabled={busy} onClick={() => onRemoveDescription(id)}>
              {t('remove', { id })}
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
  const none = sensor.tells_speed ? t('tells_speed_and_cadence') : t('no_stream_description_fits');
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
            label={fitting.length > 1 ? t('several_descriptions_fit') : t('read_it_by')}
            value={description_id}
            options={[
              ...(fitting.length > 0 ? [] : [{ value: '', label: t('not_chosen') }]),
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
        {common('add')}
      </button>
      {sensor.tells_speed && (
        <button type="button" disabled={busy} onClick={() => onCheck(sensor.sensor_id)}>
          {t('show_as_a_check')}
        </button>
      )}
    </li>
  );
}

function strength(rssi_dbm: number | null): string {
  if (rssi_dbm === null) return '';
  const word = rssi_dbm > -60 ? t('strong') : rssi_dbm > -75 ? t('fair') : t('weak');
  return t('signal_dbm', { word, rssi_dbm }).replace('-', '−');
}

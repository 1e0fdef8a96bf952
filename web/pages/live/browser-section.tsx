import { phrasesOf } from '../../app/language.ts';
import { liveWords } from '../../../shared/messages/en/view/live.ts';
import { useEffect, useRef, useState } from 'preact/hooks';
import type { PairedSensor } from '../../../shared/schemas/capture.ts';
import type { StreamDescription } from '../../../shared/schemas/stream-description.ts';
import { BrowserSensor, browserRadio } from './browser-sensor.ts';

const t = phrasesOf('live', liveWords);

interface BrowserSectionProps {
  descriptions: StreamDescription[];
  paired: PairedSensor[];
  /** True while a capture runs. */
  capturing: boolean;
}

/** Sensors that this browser itself holds: for phones and laptops, where the server has no Bluetooth. */
export function BrowserSection({ descriptions, paired, capturing }: BrowserSectionProps) {
  const [sensors, setSensors] = useState<BrowserSensor[]>([]);
  const [, redraw] = useState(0);
  const [problem, setProblem] = useState('');
  const now = useRef(capturing);
  now.current = capturing;
  const held = useRef<BrowserSensor[]>([]);
  held.current = sensors;
  useEffect(
    () => () => {
      for (const sensor of held.current) sensor.close();
    },
    [],
  );
  useEffect(() => {
    for (const sensor of held.current) {
      const place = paired.find((candidate) => candidate.sensor_id === sensor.sensor_id);
      if (place) void sensor.useSettings(place.settings);
    }
  }, [paired]);
  const radio = browserRadio();

  async function connect() {
    setProblem('');
    let sensor: BrowserSensor | null = null;
    try {
      const device = await BrowserSensor.choose(descriptions);
      if (held.current.some((other) => other.device.id === device.id)) return;
      sensor = new BrowserSensor(
        device,
        descriptions,
        () => now.current,
        () => redraw((n) => n + 1),
      );
      await sensor.open();
      const opened = sensor;
      setSensors((list) => [...list, opened]);
    } catch (error) {
      sensor?.close();
      const { name, message } = error as Error;
      if (name !== 'NotFoundError') setProblem(message);
    }
  }

  return (
    <section class="sheet" aria-label={t('sensors_of_this_browser')}>
      <h2>{t('sensors_of_this_browser')}</h2>
      <p>{t('a_phone_or_laptop_can')}</p>
      {radio.usable ? (
        <button type="button" onClick={() => void connect()}>
          {t('connect_a_sensor_to_this')}
        </button>
      ) : (
        <p class="quiet">{radio.why}</p>
      )}
      {problem && (
        <p class="sensor-words" role="alert">
          {problem}
        </p>
      )}
      {sensors.length > 0 && (
        <ul class="found-list">
          {sensors.map((sensor) => (
            <li key={sensor.sensor_id}>
              <span>
                <strong>{sensor.name}</strong>
                <span class="quiet small">{sensor.words}</span>
              </span>
              <button
                type="button"
                onClick={() => {
                  sensor.close();
                  setSensors((list) => list.filter((other) => other !== sensor));
                }}
              >
                {t('let_go')}
              </button>
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}

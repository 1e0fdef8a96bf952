import './describe.css';
import { useEffect, useState } from 'preact/hooks';
import type { Fault } from '../../../shared/fault.ts';
import type { CaptureState } from '../../../shared/schemas/capture.ts';
import type { DescriptionRemarks } from '../../../shared/schemas/captures.ts';
import type { ExplorationState } from '../../../shared/schemas/exploration.ts';
import type { StreamDescription } from '../../../shared/schemas/stream-description.ts';
import { useResource } from '../../app/use-resource.ts';
import { client, faultOf } from '../../client.ts';
import { FaultBox } from '../../parts/fault-box.tsx';
import { Offered, Trial } from './explored-parts.tsx';

const LOOK_MS = 700;

/** How a sensor speaks: choose it, see what it sends, write its description, try it, keep it. */
export default function DescribePage() {
  const state = useResource<CaptureState>('/capture');
  const known = useResource<{ items: StreamDescription[] }>('/capture/descriptions');
  const [explored, setExplored] = useState<ExplorationState | null>(null);
  const [text, setText] = useState('');
  const [remarks, setRemarks] = useState<DescriptionRemarks | null>(null);
  const [fault, setFault] = useState<Fault | null>(null);
  const [said, setSaid] = useState('');
  const act = async (work: () => Promise<unknown>) => {
    setFault(null);
    setSaid('');
    try {
      await work();
    } catch (error) {
      setFault(faultOf(error));
    }
  };
  useEffect(() => {
    const timer = setInterval(() => {
      if (explored !== null) client.get<ExplorationState>('/capture/explore').then(setExplored, () => {});
      else void state.reload();
    }, LOOK_MS);
    return () => clearInterval(timer);
  }, [explored === null]);
  useEffect(() => {
    if (text === '') return;
    const timer = setTimeout(
      () => void client.post<DescriptionRemarks>('/capture/descriptions/check', { text }).then(setRemarks, () => {}),
      300,
    );
    return () => clearTimeout(timer);
  }, [text]);
  const good = remarks !== null && remarks.faults.length === 0;
  return (
    <>
      <h1>Describe a sensor</h1>
      <p>
        A description tells how one kind of sensor speaks. Copy the one that is nearest, change what differs, and try it
        here on the sensor itself: lying still it must read 9.8 m/s², whichever way it is turned.
      </p>
      {fault && <FaultBox fault={fault} />}
      <section class="sheet" aria-label="Choose the sensor">
        <h2>1. The sensor</h2>
        <button type="button" onClick={() => act(() => client.post('/capture/search', { on: true }))}>
          Search
        </button>
        <ul>
          {state.value?.found.map(({ sensor_id, name, rssi_dbm, description_id }) => (
            <li key={sensor_id}>
              {name} ({sensor_id.slice(-5)}), {rssi_dbm ?? '–'} dBm, {description_id ?? 'no description fits'}{' '}
              <button
                type="button"
                onClick={() =>
                  act(async () => setExplored(await client.post<ExplorationState>('/capture/explore', { sensor_id })))
                }
              >
                Look inside {name}
              </button>
            </li>
          ))}
        </ul>
        {explored && <Offered explored={explored} act={act} onState={setExplored} />}
      </section>
      <section class="sheet" aria-label="The description">
        <h2>2. Its description</h2>
        <label>
          Begin with a copy of{' '}
          <select
            value=""
            onChange={(event) => {
              const copy = known.value?.items.find(({ id }) => id === event.currentTarget.value);
              if (copy) setText(JSON.stringify(copy, null, 2));
            }}
          >
            <option value="">choose one</option>
            {known.value?.items.map(({ id, name }) => (
              <option key={id} value={id}>
                {name}
              </option>
            ))}
          </select>
        </label>
        <textarea
          class="description-text"
          aria-label="Description as JSON"
          rows={24}
          spellcheck={false}
          value={text}
          onInput={(event) => setText(event.currentTarget.value)}
        />
        {remarks?.faults.map(({ field, words }) => (
          <p key={field + words} class="warning">
            <code>{field || 'The whole'}</code> {words}
          </p>
        ))}
        {remarks?.warnings.map(({ field, words }) => (
          <p key={field + words}>
            Mind: <code>{field}</code> {words}
          </p>
        ))}
        {good && <p role="status">The description has no faults.</p>}
      </section>
      <section class="sheet" aria-label="Try and keep">
        <h2>3. Try it, keep it</h2>
        <button
          type="button"
          disabled={!good || explored === null}
          onClick={() =>
            act(async () => setExplored(await client.post<ExplorationState>('/capture/explore/try', { text })))
          }
        >
          Try it on the sensor
        </button>{' '}
        <button
          type="button"
          class="primary"
          disabled={!good}
          onClick={() =>
            act(async () => {
              const { name } = await client.post<StreamDescription>('/capture/descriptions', JSON.parse(text));
              await client.remove('/capture/explore').catch(() => {});
              setExplored(null);
              setSaid(`${name} is kept. Pair the sensor on the page Live.`);
              await known.reload();
            })
          }
        >
          Keep it
        </button>{' '}
        {good && (
          <a download="description.json" href={`data:application/json,${encodeURIComponent(text)}`}>
            Save as a file to share
          </a>
        )}
        {said && <p role="status">{said}</p>}
        {explored?.trial && <Trial trial={explored.trial} />}
      </section>
    </>
  );
}

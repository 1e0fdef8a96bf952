import { useState } from 'preact/hooks';
import type { Fault } from '../../../shared/fault.ts';
import type { CaptureList, CaptureSummary } from '../../../shared/schemas/captures.ts';
import { useResource } from '../../app/use-resource.ts';
import { client, faultOf } from '../../client.ts';
import { FaultBox } from '../../parts/fault-box.tsx';

/** What was recorded by radio: each capture with its packet logs, and what can be done with them. */
export default function CapturesPage() {
  const captures = useResource<CaptureList>('/captures');
  const [fault, setFault] = useState<Fault | null>(null);
  const [said, setSaid] = useState('');
  const act = async (work: () => Promise<string>) => {
    try {
      setFault(null);
      setSaid(await work());
      await captures.reload();
    } catch (error) {
      setFault(faultOf(error));
    }
  };
  return (
    <>
      <h1>Captures</h1>
      <p>
        Everything a sensor sent is kept here as it came, also what is between repetitions. Stored repetitions hold
        their own copy: deleting a packet log takes nothing from them.
      </p>
      {fault && <FaultBox fault={fault} />}
      {said && <p role="status">{said}</p>}
      {captures.value?.problems.map((problem) => (
        <p class="warning" key={problem}>
          {problem}
        </p>
      ))}
      {captures.value?.items.length === 0 && <p class="quiet">Nothing has been recorded by radio yet.</p>}
      {captures.value?.items.map((capture) => (
        <CaptureSheet key={capture.capture_id} capture={capture} act={act} />
      ))}
    </>
  );
}

interface CaptureSheetProps {
  capture: CaptureSummary;
  act: (work: () => Promise<string>) => void;
}

function CaptureSheet({ capture, act }: CaptureSheetProps) {
  const { capture_id, started_utc, state, sensors, waiting_repetitions } = capture;
  const path = `/captures/${encodeURIComponent(capture_id)}`;
  const [asked, setAsked] = useState('');
  const log = (sensor_id: string) => `${path}/logs/${encodeURIComponent(sensor_id)}`;
  return (
    <section class="sheet" aria-label={`Capture of ${started_utc}`}>
      <h2>{new Date(started_utc).toLocaleString()}</h2>
      <p>
        {state === 'running' ? 'Running now. ' : ''}
        {sensors.length} {sensors.length === 1 ? 'sensor' : 'sensors'}
        {waiting_repetitions > 0 ? `; ${waiting_repetitions} repetitions wait to be stored` : ''}
      </p>
      <ul>
        {sensors.map(({ sensor_id, name, side, mounting, bytes }) => (
          <li key={sensor_id}>
            {name}: {side === 'unknown' ? 'side not set' : side}, {mounting}, {sizeText(bytes)}{' '}
            <a href={`/api${log(sensor_id)}/samples.csv`}>Samples as CSV</a>{' '}
            {state === 'ended' &&
              (asked === sensor_id ? (
                <button type="button" onClick={() => act(() => client.remove(log(sensor_id)).then(() => 'Deleted.'))}>
                  Delete for good
                </button>
              ) : (
                <button type="button" class="plain" onClick={() => setAsked(sensor_id)}>
                  Delete this log
                </button>
              ))}
          </li>
        ))}
      </ul>
      {state === 'ended' && (
        <p>
          <button
            type="button"
            onClick={() =>
              act(async () => {
                const { stored } = await client.post<{ stored: number }>(`${path}/analyse`);
                return stored === 0
                  ? 'Every repetition in it is stored already.'
                  : `${stored} more repetitions stored.`;
              })
            }
          >
            Analyse again
          </button>{' '}
          <button
            type="button"
            onClick={() => act(() => client.post(`${path}/replay`).then(() => 'The replay runs: see Live.'))}
          >
            Replay
          </button>
        </p>
      )}
    </section>
  );
}

function sizeText(bytes: number): string {
  return bytes < 1e5 ? `${Math.ceil(bytes / 1000)} kB` : `${(bytes / 1e6).toFixed(1)} MB`;
}

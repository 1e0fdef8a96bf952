import type { ExplorationState, TrialState } from '../../../shared/schemas/exploration.ts';
import { client } from '../../client.ts';

interface OfferedProps {
  explored: ExplorationState;
  act: (work: () => Promise<unknown>) => void;
  onState: (state: ExplorationState) => void;
}

/** What the sensor offers, and the packets that come. */
export function Offered({ explored, act, onState }: OfferedProps) {
  const listen = (service_uuid: string, characteristic_uuid: string) =>
    act(async () =>
      onState(await client.post<ExplorationState>('/capture/explore/listen', { service_uuid, characteristic_uuid })),
    );
  return (
    <>
      {explored.lost && <p class="warning">The link ended: {explored.lost}. Choose the sensor again.</p>}
      <h3>What it offers</h3>
      {explored.services.map(({ uuid, characteristics }) => (
        <div key={uuid}>
          <p>
            Service <code>{uuid}</code>
          </p>
          <ul>
            {characteristics.map((one) => (
              <li key={one.uuid}>
                <code>{one.uuid}</code> {one.flags.join(', ')}{' '}
                {one.flags.includes('notify') && (
                  <button type="button" class="plain" onClick={() => listen(uuid, one.uuid)}>
                    Listen
                  </button>
                )}
              </li>
            ))}
          </ul>
        </div>
      ))}
      <p>
        {explored.packet_count} packets
        {explored.packets_per_s === null ? '' : `, ${explored.packets_per_s.toFixed(1)} a second`}
        {explored.mtu === null ? '' : `; the link carries ${explored.mtu} bytes at a time`}
      </p>
      <pre class="raw-packets">{explored.packets.map(({ hex, bytes }) => `${bytes} bytes: ${hex}`).join('\n')}</pre>
    </>
  );
}

/** What a description makes of the packets. */
export function Trial({ trial }: { trial: TrialState }) {
  const { acc_mps2, norm_mps2, measured_rate_hz, nominal_rate_hz } = trial;
  const rests = norm_mps2 !== null && Math.abs(norm_mps2 - 9.81) < 0.5;
  return (
    <dl class="sensor-numbers" aria-label="What the description makes of it">
      <div>
        <dt>samples</dt>
        <dd>{trial.samples}</dd>
      </div>
      <div>
        <dt>lost</dt>
        <dd>{trial.lost_samples}</dd>
      </div>
      <div>
        <dt>packets not read</dt>
        <dd>{trial.unreadable_packets + trial.other_packets + trial.out_of_sequence_packets}</dd>
      </div>
      <div>
        <dt>rate</dt>
        <dd>
          {measured_rate_hz === null ? 'measuring' : `${measured_rate_hz.toFixed(1)} Hz`} of {nominal_rate_hz} Hz
        </dd>
      </div>
      <div>
        <dt>acceleration</dt>
        <dd>
          {norm_mps2 === null ? '–' : `${norm_mps2.toFixed(2)} m/s²`} {rests ? '(gravity: at rest)' : ''}
        </dd>
      </div>
      <div>
        <dt>x, y, z</dt>
        <dd>{acc_mps2?.map((value) => value.toFixed(1)).join(', ') ?? '–'}</dd>
      </div>
    </dl>
  );
}

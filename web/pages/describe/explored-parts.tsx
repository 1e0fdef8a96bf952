import { formatNumber } from '../../app/format.ts';
import { phrasesOf, speech } from '../../app/language.ts';
import { commonWords } from '../../../shared/messages/en/view/common.ts';
import { describeWords } from '../../../shared/messages/en/view/describe.ts';
import type { ExplorationState, TrialState } from '../../../shared/schemas/exploration.ts';
import { client } from '../../client.ts';

const t = phrasesOf('describe', describeWords);
const common = phrasesOf('common', commonWords);

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
      {explored.lost && (
        <p class="warning">{t('the_link_ended_choose_the', { lost: speech.value.notice(explored.lost) })}</p>
      )}
      <h3>{t('what_it_offers')}</h3>
      {explored.services.map(({ uuid, characteristics }) => (
        <div key={uuid}>
          <p>
            {t('service')}
            <code>{uuid}</code>
          </p>
          <ul>
            {characteristics.map((one) => (
              <li key={one.uuid}>
                <code>{one.uuid}</code> {one.flags.join(', ')}{' '}
                {one.flags.includes('notify') && (
                  <button type="button" class="plain" onClick={() => listen(uuid, one.uuid)}>
                    {t('listen')}
                  </button>
                )}
              </li>
            ))}
          </ul>
        </div>
      ))}
      <p>
        {t('packets', { packet_count: explored.packet_count })}
        {explored.packets_per_s === null
          ? ''
          : t('a_second', { packets_per_s: formatNumber(explored.packets_per_s, 1) })}
        {explored.mtu === null ? '' : t('the_link_carries_bytes_at', { mtu: explored.mtu })}
      </p>
      <pre class="raw-packets">{explored.packets.map(({ hex, bytes }) => t('bytes', { bytes, hex })).join('\n')}</pre>
    </>
  );
}

/** What a description makes of the packets. */
export function Trial({ trial }: { trial: TrialState }) {
  const { acc_mps2, norm_mps2, measured_rate_hz, nominal_rate_hz } = trial;
  const rests = norm_mps2 !== null && Math.abs(norm_mps2 - 9.81) < 0.5;
  return (
    <dl class="sensor-numbers" aria-label={t('what_the_description_makes_of')}>
      <div>
        <dt>{common('samples')}</dt>
        <dd>{trial.samples}</dd>
      </div>
      <div>
        <dt>{common('lost')}</dt>
        <dd>{trial.lost_samples}</dd>
      </div>
      <div>
        <dt>{t('packets_not_read')}</dt>
        <dd>{trial.unreadable_packets + trial.other_packets + trial.out_of_sequence_packets}</dd>
      </div>
      <div>
        <dt>{common('rate')}</dt>
        <dd>
          {measured_rate_hz === null ? t('measuring') : `${formatNumber(measured_rate_hz, 1)} Hz`}
          {t('of_hz', { nominal_rate_hz })}
        </dd>
      </div>
      <div>
        <dt>{t('acceleration')}</dt>
        <dd>
          {norm_mps2 === null ? '–' : `${formatNumber(norm_mps2, 2)} m/s²`} {rests ? t('gravity_at_rest') : ''}
        </dd>
      </div>
      <div>
        <dt>x, y, z</dt>
        <dd>{acc_mps2?.map((value) => formatNumber(value, 1)).join(', ') ?? '–'}</dd>
      </div>
    </dl>
  );
}

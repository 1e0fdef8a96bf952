import { commonWords } from '../../../shared/messages/en/view/common.ts';
import { formatNumber } from '../../app/format.ts';
import { dateLocale, phrasesOf, speech } from '../../app/language.ts';
import { liveWords } from '../../../shared/messages/en/view/live.ts';
import { useState } from 'preact/hooks';
import type { Fault } from '../../../shared/fault.ts';
import type { CaptureList, CaptureSummary } from '../../../shared/schemas/captures.ts';
import { useResource } from '../../app/use-resource.ts';
import { client, faultOf } from '../../client.ts';
import { FaultBox } from '../../parts/fault-box.tsx';

const common = phrasesOf('common', commonWords);

const t = phrasesOf('live', liveWords);

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
      <h1>{t('captures')}</h1>
      <p>{t('everything_a_sensor_sent_is')}</p>
      {fault && <FaultBox fault={fault} />}
      {said && <p role="status">{said}</p>}
      {captures.value?.problems.map((problem, i) => (
        <p class="warning" key={i}>
          {speech.value.notice(problem)}
        </p>
      ))}
      {captures.value?.items.length === 0 && <p class="quiet">{t('nothing_has_been_recorded_by')}</p>}
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
  const { capture_id, started_utc, state, session_id, sensors, waiting_repetitions, from_memory } = capture;
  const path = `/captures/${encodeURIComponent(capture_id)}`;
  const [asked, setAsked] = useState('');
  const log = (sensor_id: string) => `${path}/logs/${encodeURIComponent(sensor_id)}`;
  return (
    <section class="sheet" aria-label={t('capture_of', { started_utc })}>
      <h2>{new Date(started_utc).toLocaleString(dateLocale())}</h2>
      <p>
        {state === 'running' ? t('running_now') : ''}
        {sensors.length} {sensors.length === 1 ? t('sensor') : t('sensors')}
        {from_memory ? t('from_their_memory') : ''}
        {waiting_repetitions > 0 ? t('to_be_stored', { waiting_repetitions }) : ''}
      </p>
      <ul class="found-list">
        {sensors.map(({ sensor_id, name, side, mounting, bytes }) => (
          <li key={sensor_id}>
            <span>
              {name}: {side === 'unknown' ? t('side_not_set') : common(side)}, {common(`place_${mounting}`)},{' '}
              {sizeText(bytes)} <a href={`/api${log(sensor_id)}/samples.csv`}>{t('samples_as_csv')}</a>
            </span>
            {state === 'ended' &&
              (asked === sensor_id ? (
                <button type="button" onClick={() => act(() => client.remove(log(sensor_id)).then(() => t('deleted')))}>
                  {t('delete_for_good')}
                </button>
              ) : (
                <button type="button" class="plain" onClick={() => setAsked(sensor_id)}>
                  {t('delete_this_log')}
                </button>
              ))}
          </li>
        ))}
      </ul>
      {state === 'ended' && (
        <div class="actions">
          <button
            type="button"
            onClick={() =>
              act(async () => {
                const { stored } = await client.post<{ stored: number }>(`${path}/analyse`);
                return stored === 0 ? t('every_repetition_in_it_is') : t('more_repetitions_stored', { stored });
              })
            }
          >
            {t('analyse_again')}
          </button>
          <button
            type="button"
            onClick={() => act(() => client.post(`${path}/replay`).then(() => t('the_replay_runs_see_live')))}
          >
            {t('replay')}
          </button>
          {session_id !== null && <a href={`#/sessions/${session_id}`}>{common('page_Session')}</a>}
        </div>
      )}
    </section>
  );
}

function sizeText(bytes: number): string {
  return bytes < 1e5 ? `${Math.ceil(bytes / 1000)} kB` : `${formatNumber(bytes / 1e6, 1)} MB`;
}

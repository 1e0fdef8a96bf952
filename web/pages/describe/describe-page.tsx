import { phrasesOf, speech } from '../../app/language.ts';
import { describeWords } from '../../../shared/messages/en/view/describe.ts';
import './describe.css';
import { useEffect, useState } from 'preact/hooks';
import type { Fault } from '../../../shared/fault.ts';
import type { CaptureState } from '../../../shared/schemas/capture.ts';
import type { DescriptionRemark } from '../../../shared/description-remark.ts';
import type { DescriptionRemarks } from '../../../shared/schemas/captures.ts';
import type { ExplorationState } from '../../../shared/schemas/exploration.ts';
import type { StreamDescription } from '../../../shared/schemas/stream-description.ts';
import { useResource } from '../../app/use-resource.ts';
import { client, faultOf } from '../../client.ts';
import { FaultBox } from '../../parts/fault-box.tsx';
import { Offered, Trial } from './explored-parts.tsx';

const t = phrasesOf('describe', describeWords);

const LOOK_MS = 700;

function told(remarks: DescriptionRemark[] = []): { field: string; words: string }[] {
  return remarks.map(({ field, words }) => ({ field, words: speech.value.notice(words) }));
}

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
      <h1>{t('describe_a_sensor')}</h1>
      <p>{t('a_description_tells_how_one')}</p>
      {fault && <FaultBox fault={fault} />}
      <section class="sheet" aria-label={t('choose_the_sensor')}>
        <h2>{t('n_1_the_sensor')}</h2>
        <button type="button" onClick={() => act(() => client.post('/capture/search', { on: true }))}>
          {t('search')}
        </button>
        <ul class="found-list">
          {state.value?.found.map(({ sensor_id, name, rssi_dbm, description_id }) => (
            <li key={sensor_id}>
              <span>
                {t('dbm', {
                  name,
                  value: sensor_id.slice(-5),
                  rssi_dbm: rssi_dbm ?? '–',
                  description_id: description_id ?? t('no_description_fits'),
                })}
              </span>
              <button
                type="button"
                onClick={() =>
                  act(async () => setExplored(await client.post<ExplorationState>('/capture/explore', { sensor_id })))
                }
              >
                {t('look_inside', { name })}
              </button>
            </li>
          ))}
        </ul>
        {explored && <Offered explored={explored} act={act} onState={setExplored} />}
      </section>
      <section class="sheet" aria-label={t('the_description')}>
        <h2>{t('n_2_its_description')}</h2>
        <label class="description-copy">
          {t('begin_with_a_copy_of')}
          <select
            value=""
            onChange={(event) => {
              const copy = known.value?.items.find(({ id }) => id === event.currentTarget.value);
              if (copy) setText(JSON.stringify(copy, null, 2));
            }}
          >
            <option value="">{t('choose_one')}</option>
            {known.value?.items.map(({ id, name }) => (
              <option key={id} value={id}>
                {name}
              </option>
            ))}
          </select>
        </label>
        <textarea
          class="description-text"
          aria-label={t('description_as_json')}
          rows={text === '' ? 6 : 24}
          spellcheck={false}
          value={text}
          onInput={(event) => setText(event.currentTarget.value)}
        />
        {told(remarks?.faults).map(({ field, words }) => (
          <p key={field + words} class="warning">
            <code>{field || t('the_whole')}</code> {words}
          </p>
        ))}
        {told(remarks?.warnings).map(({ field, words }) => (
          <p key={field + words}>
            {t('mind')}
            <code>{field}</code> {words}
          </p>
        ))}
        {good && <p role="status">{t('the_description_has_no_faults')}</p>}
      </section>
      <section class="sheet" aria-label={t('try_and_keep')}>
        <h2>{t('n_3_try_it_keep_it')}</h2>
        <div class="actions">
          <button
            type="button"
            disabled={!good || explored === null}
            onClick={() =>
              act(async () => setExplored(await client.post<ExplorationState>('/capture/explore/try', { text })))
            }
          >
            {t('try_it_on_the_sensor')}
          </button>
          <button
            type="button"
            class="primary"
            disabled={!good}
            onClick={() =>
              act(async () => {
                const { name } = await client.post<StreamDescription>('/capture/descriptions', JSON.parse(text));
                await client.remove('/capture/explore').catch(() => {});
                setExplored(null);
                setSaid(t('is_kept_pair_the_sensor', { name }));
                await known.reload();
              })
            }
          >
            {t('keep_it')}
          </button>
          {good && (
            <a download="description.json" href={`data:application/json,${encodeURIComponent(text)}`}>
              {t('save_as_a_file_to')}
            </a>
          )}
        </div>
        {said && <p role="status">{said}</p>}
        {explored?.trial && <Trial trial={explored.trial} />}
      </section>
    </>
  );
}

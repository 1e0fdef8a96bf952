import { dateLocale, phrasesOf, speech } from '../../app/language.ts';
import { commonWords } from '../../../shared/messages/en/view/common.ts';
import { liveWords } from '../../../shared/messages/en/view/live.ts';
import './live.css';
import { useCallback, useState } from 'preact/hooks';
import type { Fault } from '../../../shared/fault.ts';
import type { CaptureState, PairedSensor } from '../../../shared/schemas/capture.ts';
import { useDirectory } from '../../app/directory.ts';
import type { PageProps } from '../../app/router.ts';
import { useResource } from '../../app/use-resource.ts';
import { faultOf } from '../../client.ts';
import { Cautions } from '../../parts/cautions.tsx';
import { FaultBox } from '../../parts/fault-box.tsx';
import { BrowserSection } from './browser-section.tsx';
import { CaptureBar } from './capture-bar.tsx';
import { EndingNotice } from './ending-notice.tsx';
import { ChecksSection } from './checks-section.tsx';
import { type DescriptionList, live } from './live-api.ts';
import { ReplaySection } from './replay-section.tsx';
import { Result, RunningNow } from './results.tsx';
import { SearchSection } from './search-section.tsx';
import { SensorCard } from './sensor-card.tsx';
import { type Capture, useCapture } from './use-capture.ts';

const t = phrasesOf('live', liveWords);
const common = phrasesOf('common', commonWords);

/** At the track: sensors on, contacts as they happen, each repetition's result as it ends. */
export default function LivePage({ query }: PageProps) {
  const capture = useCapture();
  const directory = useDirectory();
  const descriptions = useResource<DescriptionList>(live.descriptionsPath);
  const { fault, busy, act } = useAction();
  const ring = useCallback((sensor_id: string) => capture.signals.get(sensor_id), [capture.signals]);
  const { state } = capture;
  const kinds = descriptions.value?.items ?? [];
  const session_id = Number(query.get('session_id')) || undefined;
  if (state === null) {
    if (capture.refused) return <FaultBox fault={capture.refused} />;
    return (
      <p class="quiet" role="status">
        {capture.connected ? t('reading_the_sensors') : t('the_cinderlane_server_does_not')}
      </p>
    );
  }
  const recording = state.capture !== null;
  const replay = state.capture?.kind === 'replay';
  const cards = state.sensors.map((sensor) => (
    <SensorCard
      key={sensor.sensor_id}
      sensor={sensor}
      recording={recording}
      replay={replay}
      directory={directory}
      description={kinds.find((kind) => kind.id === sensor.description_id)}
      ring={ring}
      onPlace={(sensor_id, change) => act(() => live.place(sensor_id, change))}
      onForget={(sensor_id) => act(() => live.forget(sensor_id))}
    />
  ));
  return (
    <>
      <h1>{common('page_Live')}</h1>
      {fault && <FaultBox fault={fault} />}
      <Warnings capture={capture} state={state} />
      {state.ending_packets > 0 && (
        <EndingNotice packets={state.ending_packets} busy={busy} onGiveUp={() => act(() => live.stop(true))} />
      )}
      <CaptureBar
        state={state}
        busy={busy}
        onMark={(mark) => act(() => live.mark(mark))}
        onStop={() => act(() => live.stop())}
      />
      {recording && <NowAndResults capture={capture} />}
      {state.sensors.length > 0 && (
        <section aria-label={common('sensors')}>
          <h2>{common('sensors')}</h2>
          <PlacingHint sensors={state.sensors} recording={recording} />
          <div class="sensor-grid">{cards}</div>
          {!recording && (
            <button
              type="button"
              class="primary live-go"
              disabled={busy}
              onClick={() => act(() => live.start(session_id === undefined ? {} : { session_id }))}
            >
              {t('connect_and_record')}
            </button>
          )}
        </section>
      )}
      <ChecksSection
        checks={state.checks}
        results={capture.results}
        athletes={directory.athletes.value?.items ?? []}
        busy={busy}
        onWearer={(sensor_id, athlete_id) => act(() => live.check(sensor_id, athlete_id))}
        onEnd={(sensor_id) => act(() => live.endCheck(sensor_id))}
      />
      {!recording && capture.results.length > 0 && <NowAndResults capture={capture} />}
      {!recording && (
        <>
          <SearchSection
            state={state}
            descriptions={kinds}
            busy={busy}
            onSearch={(on) => act(() => live.search(on))}
            onPair={(sensor_id, description_id) => act(() => live.place(sensor_id, { description_id }))}
            added={descriptions.value?.added ?? []}
            onRemoveDescription={(id) =>
              act(async () => {
                await live.removeDescription(id);
                await descriptions.reload();
              })
            }
            onCheck={(sensor_id) => act(() => live.check(sensor_id, null))}
            onDescription={(file) =>
              act(async () => {
                await live.addDescription(JSON.parse(await file.text()));
                await descriptions.reload();
              })
            }
          />
          <ReplaySection busy={busy} onReplay={(id) => act(() => live.replay({ session_id: id }))} />
        </>
      )}
      {!replay && <BrowserSection descriptions={kinds} paired={state.sensors} capturing={recording} />}
      <Messages messages={state.messages} />
      <Cautions />
    </>
  );
}

/** Runs a change, one at a time, and keeps what went wrong. */
function useAction() {
  const [fault, setFault] = useState<Fault | null>(null);
  const [busy, setBusy] = useState(false);
  const act = (work: () => Promise<unknown>): Promise<void> => {
    setBusy(true);
    setFault(null);
    return work()
      .then(() => undefined)
      .catch((error) => setFault(faultOf(error)))
      .finally(() => setBusy(false));
  };
  return { fault, busy, act };
}

function Warnings({ capture, state }: { capture: Capture; state: CaptureState }) {
  const warnings = [
    capture.connected ? '' : t('the_cinderlane_server_does_not_2'),
    speech.value.notice(state.radio.problem),
    speech.value.notice(state.disk_problem),
  ].filter(Boolean);
  return (
    <>
      {warnings.map((text) => (
        <p key={text} class="live-warning" role="alert">
          {text}
        </p>
      ))}
    </>
  );
}

function NowAndResults({ capture: { running, results } }: { capture: Capture }) {
  return (
    <div aria-live="polite">
      {running.map((event) => (
        <RunningNow key={event.athlete_id} event={event} />
      ))}
      {results.map((event, i) => (
        <Result key={results.length - i} event={event} large={i === 0 && running.length === 0} />
      ))}
    </div>
  );
}

/** Which sensor is which: said until every one has a side. */
function PlacingHint({ sensors, recording }: { sensors: PairedSensor[]; recording: boolean }) {
  if (sensors.every((sensor) => sensor.side !== 'unknown')) return null;
  return <p class="live-hint">{recording ? t('which_is_which_stand_still') : t('give_each_sensor_a_side')}</p>;
}

function Messages({ messages }: { messages: CaptureState['messages'] }) {
  if (messages.length === 0) return null;
  return (
    <section aria-label={t('what_happened')}>
      <h2>{t('what_happened')}</h2>
      <ul class="live-messages">
        {messages.slice(0, 12).map((message, i) => (
          <li key={messages.length - i}>
            <time dateTime={message.utc}>{new Date(message.utc).toLocaleTimeString(dateLocale())}</time>{' '}
            {speech.value.notice(message.text)}
          </li>
        ))}
      </ul>
    </section>
  );
}

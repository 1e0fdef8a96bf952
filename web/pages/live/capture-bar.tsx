import { phrasesOf } from '../../app/language.ts';
import { commonWords } from '../../../shared/messages/en/view/common.ts';
import { liveWords } from '../../../shared/messages/en/view/live.ts';
import type { CaptureState } from '../../../shared/schemas/capture.ts';

const t = phrasesOf('live', liveWords);
const common = phrasesOf('common', commonWords);

interface CaptureBarProps {
  state: CaptureState;
  busy: boolean;
  onMark: (mark: 'start' | 'stop') => void;
  onStop: () => void;
}

/** What is going on, in one line to be read at arm's length, and the three buttons for cold fingers. */
export function CaptureBar({ state, busy, onMark, onStop }: CaptureBarProps) {
  const { capture, sensors } = state;
  if (capture === null) return null;
  const live = sensors.filter((sensor) => sensor.state === 'live').length;
  const marked = capture.marked_s !== null;
  return (
    <section class="capture-bar" aria-label={t('capture')}>
      <p class="capture-line" role="status">
        <strong>{capture.kind === 'replay' ? t('replay') : common('recording')}</strong>
        {t('of', { seconds: clock(capture.seconds), live, n_sensors: sensors.length })}
        {sensors.length === 1 ? t('sensor') : t('sensors')}
        {t('live')}
      </p>
      <p class="small">{t('repetitions_are_found_by_themselves')}</p>
      <div class="capture-buttons">
        {marked ? (
          <button type="button" class="primary" disabled={busy} onClick={() => onMark('stop')}>
            {t('stop_s', { marked_s: Math.floor(capture.marked_s ?? 0) })}
          </button>
        ) : (
          <button type="button" class="primary" disabled={busy} onClick={() => onMark('start')}>
            {common('start')}
          </button>
        )}
        <button type="button" disabled={busy} onClick={onStop}>
          {capture.kind === 'replay' ? t('end_replay') : t('end_recording')}
        </button>
      </div>
    </section>
  );
}

function clock(seconds: number): string {
  const whole = Math.max(0, Math.floor(seconds));
  const two = (value: number) => String(value).padStart(2, '0');
  const minutes = `${two(Math.floor(whole / 60) % 60)}:${two(whole % 60)}`;
  return whole < 3600 ? minutes : `${Math.floor(whole / 3600)}:${minutes}`;
}

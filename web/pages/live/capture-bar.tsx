import type { CaptureState } from '../../../shared/schemas/capture.ts';

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
    <section class="capture-bar" aria-label="Capture">
      <p class="capture-line" role="status">
        <strong>{capture.kind === 'replay' ? 'Replay' : 'Recording'}</strong> {clock(capture.seconds)}, {live} of{' '}
        {sensors.length} {sensors.length === 1 ? 'sensor' : 'sensors'} live
      </p>
      <p class="small">
        Repetitions are found by themselves, from the first contact to the last. Press start and stop only to mark one
        yourself.
      </p>
      <div class="capture-buttons">
        {marked ? (
          <button type="button" class="primary" disabled={busy} onClick={() => onMark('stop')}>
            Stop {Math.floor(capture.marked_s ?? 0)} s
          </button>
        ) : (
          <button type="button" class="primary" disabled={busy} onClick={() => onMark('start')}>
            Start
          </button>
        )}
        <button type="button" disabled={busy} onClick={onStop}>
          {capture.kind === 'replay' ? 'End replay' : 'End recording'}
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

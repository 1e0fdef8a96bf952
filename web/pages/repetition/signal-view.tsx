import { commonTime } from '../../../shared/sensor-clock.ts';
import { repetitionWords } from '../../../shared/messages/en/view/repetition.ts';
import { phrasesOf } from '../../app/language.ts';
import { useEffect, useMemo, useState } from 'preact/hooks';
import type { Contact, RepetitionResult, SensorQuality } from '../../../shared/analysis.ts';
import type { RecordingLine } from '../../../shared/schemas/repetition.ts';
import type { Side } from '../../../shared/words.ts';
import { Choice } from '../../parts/choice.tsx';
import { FaultBox } from '../../parts/fault-box.tsx';
import { SIGNAL_VIEWS, type SignalViewName } from './signal-channels.ts';
import { SignalPlot } from './signal-plot.tsx';
import { clampRange, keyRange, panRange, type SignalRange, zoomRange } from './signal-range.ts';
import { touchHandlers } from './signal-touch.ts';
import { useSignal } from './use-signal.ts';

const t = phrasesOf('repetition', repetitionWords);

const NO_GAPS: SensorQuality['gaps'] = [];

interface SignalViewProps {
  repetition_id: number;
  recordings: RecordingLine[];
  result: RepetitionResult;
  /** One entry a recording, in the same order. */
  quality: SensorQuality[];
  selected: number | null;
  onSelect: (step: number) => void;
}

/** The raw signal of each sensor with every touchdown and toe-off marked; zoom by keyboard, buttons, dragging, pinching. */
export function SignalView({ repetition_id, recordings, result, quality, selected, onSelect }: SignalViewProps) {
  const whole = useMemo(() => wholeOf(recordings, result), [recordings, result]);
  const [range, setRangeFree] = useState<SignalRange>(() => clampRange(runningOf(result), whole));
  const [view, setView] = useState<SignalViewName>('acc');
  const setRange = (next: SignalRange) => setRangeFree(clampRange(next, whole));
  const hasGyroscope = recordings.some((recording) => recording.has_gyroscope);
  const chosen = result.contacts.find((contact) => contact.step === selected);

  // A new analysis of the same recording, or another repetition: start again from its running.
  useEffect(() => setRangeFree(clampRange(runningOf(result), whole)), [repetition_id, whole]);

  function neighbour(direction: 1 | -1) {
    const next = nextContact(result.contacts, selected, range, direction);
    if (!next) return;
    onSelect(next.step);
    setRange(aroundContact(next, range));
  }

  function onKeyDown(event: KeyboardEvent) {
    if (event.altKey || event.ctrlKey || event.metaKey) return;
    const next = keyRange(event.key, range, whole);
    if (next) setRange(next);
    else if (event.key === 'n') neighbour(1);
    else if (event.key === 'p') neighbour(-1);
    else return;
    event.preventDefault();
  }

  return (
    <section class="no-print" aria-labelledby="signal-head">
      <h2 id="signal-head">{t('raw_signal')}</h2>
      <div class="controls no-print">
        <Choice
          legend={t('signal')}
          quiet
          value={view}
          options={SIGNAL_VIEWS.filter((name) => hasGyroscope || name !== 'gyr_axes').map((value) => ({
            value,
            label: t(`signal_${value}`),
          }))}
          onChange={setView}
        />
        <div class="button-row">
          <button type="button" aria-label={t('earlier')} onClick={() => setRange(panRange(range, -0.5))}>
            ←
          </button>
          <button type="button" aria-label={t('closer')} onClick={() => setRange(zoomRange(range, 0.5))}>
            +
          </button>
          <button type="button" aria-label={t('wider')} onClick={() => setRange(zoomRange(range, 2))}>
            −
          </button>
          <button type="button" aria-label={t('later')} onClick={() => setRange(panRange(range, 0.5))}>
            →
          </button>
          <button type="button" onClick={() => setRange(runningOf(result))}>
            {t('running')}
          </button>
          <button type="button" onClick={() => setRange(whole)}>
            {t('all')}
          </button>
          <button type="button" disabled={!chosen} onClick={() => chosen && setRange(aroundContact(chosen, null))}>
            {t('chosen_step')}
          </button>
        </div>
      </div>
      <div
        class="sheet signal"
        role="application"
        // biome-ignore lint/a11y/noNoninteractiveTabindex: the plot is worked by keyboard
        tabIndex={0}
        aria-label={t('signal_from_to', range)}
        aria-describedby="signal-keys"
        onKeyDown={onKeyDown}
        {...touchHandlers(range, setRange)}
      >
        {recordings.map((recording, at) => (
          <SignalRow
            key={recording.recording_id}
            repetition_id={repetition_id}
            side={recording.side}
            label={recording.side === 'unknown' ? t('sensor') : t(`${recording.side}_${recording.mounting}`)}
            view={view}
            range={range}
            contacts={result.contacts}
            gaps={quality[at]?.gaps ?? NO_GAPS}
            clock={recording}
            selected={selected}
            onRange={setRange}
          />
        ))}
        <p class="signal-time">{t('from_to_s', range)}</p>
      </div>
      <p id="signal-keys" class="small quiet no-print">
        {t('signal_help')} <kbd>←</kbd> <kbd>→</kbd> {t('keys_move')}, <kbd>+</kbd> <kbd>−</kbd> {t('keys_zoom')},{' '}
        <kbd>0</kbd> {t('keys_all')}, <kbd>n</kbd> <kbd>p</kbd> {t('keys_contact')}
      </p>
      <FaultLegend quality={quality} />
    </section>
  );
}

/** What the marks of a faulty recording mean, where there are some. */
function FaultLegend({ quality }: { quality: SensorQuality[] }) {
  const gaps = quality.some((sensor) => sensor.gaps.length > 0);
  const clipped = quality.some((sensor) => sensor.acc_clipped_samples + sensor.gyr_clipped_samples > 0);
  if (!gaps && !clipped) return null;
  return (
    <p class="small signal-marks">
      {gaps && (
        <span>
          <svg width="22" height="16" aria-hidden="true">
            <path d="M1 1H21V15H1ZM1 9L9 1M3 15L17 1M11 15L21 5" />
          </svg>{' '}
          {t('samples_missing')}
        </span>
      )}
      {clipped && (
        <span>
          <svg width="22" height="16" aria-hidden="true">
            <path class="bar" d="M1 3H21V8H1Z" />
          </svg>{' '}
          {t('beyond_range')}
        </span>
      )}
    </p>
  );
}

interface SignalRowProps {
  repetition_id: number;
  side: Side;
  label: string;
  view: SignalViewName;
  range: SignalRange;
  contacts: Contact[];
  /** In the recording's own time. */
  gaps: SensorQuality['gaps'];
  clock: Pick<RecordingLine, 'clock_offset_s' | 'clock_drift'>;
  selected: number | null;
  onRange: (range: SignalRange) => void;
}

function SignalRow(props: SignalRowProps) {
  const { repetition_id, side, label, view, range, contacts, gaps, clock, selected, onRange } = props;
  const { signal, fault } = useSignal(repetition_id, side, range);
  const own = useMemo(() => contacts.filter((contact) => contact.side === side), [contacts, side]);
  const missing = useMemo(() => {
    const common = (time_s: number) => commonTime(time_s, clock);
    return gaps.map(({ start_s, end_s }) => ({ from_s: common(start_s), to_s: common(end_s) }));
  }, [gaps, clock]);
  return (
    <div class="signal-row">
      <h3>{label}</h3>
      {fault && <FaultBox fault={fault} />}
      {signal ? (
        <SignalPlot
          side={side}
          signal={signal}
          view={view}
          range={range}
          contacts={own}
          gaps={missing}
          selected={selected}
          onRange={onRange}
        />
      ) : (
        !fault && <p class="signal-waiting quiet">{t('reading_signal')}</p>
      )}
    </div>
  );
}

/** The running, with a little before and after. */
function runningOf(result: RepetitionResult): SignalRange {
  return { from_s: (result.first_movement_s ?? result.start_s) - 0.3, to_s: result.end_s + 0.3 };
}

function wholeOf(recordings: RecordingLine[], result: RepetitionResult): SignalRange {
  const ends = recordings.map((recording) => recording.clock_offset_s + (recording.duration_s ?? 0));
  return { from_s: 0, to_s: Math.max(result.end_s, ...ends) };
}

/** A window round one contact: as wide as before where that is close enough, else half a second. */
function aroundContact(contact: Contact, range: SignalRange | null): SignalRange {
  const middle = (contact.touchdown_s + (contact.toe_off_s ?? contact.touchdown_s)) / 2;
  const width = range ? Math.min(range.to_s - range.from_s, 1) : 0.5;
  return { from_s: middle - width / 2, to_s: middle + width / 2 };
}

function nextContact(contacts: Contact[], selected: number | null, range: SignalRange, direction: 1 | -1) {
  const at = contacts.findIndex((contact) => contact.step === selected);
  if (at >= 0) return contacts[at + direction];
  return contacts.find((contact) => contact.touchdown_s >= range.from_s);
}

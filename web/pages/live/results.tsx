import type { ContactsEvent } from '../../../shared/schemas/capture.ts';
import { formatQuantity } from '../../app/format.ts';
import { Legend, LegendSide } from '../../parts/plot/legend.tsx';
import { RecordingNote } from '../repetition/recording-note.tsx';
import { ContactsPlot } from './contacts-plot.tsx';
import type { LiveResult } from './use-capture.ts';

/** Somebody is running: the contacts so far. */
export function RunningNow({ event }: { event: ContactsEvent }) {
  return (
    <section class="sheet live-running" aria-label="Running now">
      <h2>
        {event.athlete_name ?? 'Running'} <span class="quiet">running, {event.contacts.length} contacts</span>
      </h2>
      <ContactsPlot contacts={event.contacts} />
    </section>
  );
}

const overWords: Record<LiveResult['figures_over'], string> = {
  'at speed': 'those at speed',
  'all contacts': 'all of them',
};

/** A repetition's result, as soon as it has ended. */
export function Result({ event, large }: { event: LiveResult; large: boolean }) {
  const found = event.contacts.length > 0;
  return (
    <section class={`sheet live-result${large ? ' is-large' : ''}`} aria-label="Result">
      <h2>
        {event.athlete_name ?? 'Nobody named'}{' '}
        <span class="quiet">
          {found
            ? `${event.contacts.length} contacts; means over ${overWords[event.figures_over]}`
            : 'no running found'}
        </span>
      </h2>
      {event.words && <p class="sensor-words">{event.words}</p>}
      <RecordingNote quality={event.quality} />
      {found && (
        <dl class="live-figures">
          <Figure label="contact time" value={formatQuantity('contact_time_ms', event.contact_time_ms)} />
          <Figure label="left" value={formatQuantity('contact_time_ms', event.left_contact_time_ms)} />
          <Figure label="right" value={formatQuantity('contact_time_ms', event.right_contact_time_ms)} />
          <Figure label="flight time" value={formatQuantity('flight_time_ms', event.flight_time_ms)} />
          <Figure label="step rate" value={formatQuantity('step_rate_hz', event.step_rate_hz)} />
        </dl>
      )}
      {found && large && (
        <>
          <ContactsPlot contacts={event.contacts} />
          <Legend>
            <LegendSide side="left" />
            <LegendSide side="right" />
          </Legend>
        </>
      )}
      <p class="actions">
        {event.repetition_id !== null && (
          <a class="button" href={`#/repetitions/${event.repetition_id}`}>
            Open the repetition
          </a>
        )}
        {event.repetition_id !== null && event.session_id !== null && (
          <a class="button" href={`#/field/${event.session_id}`}>
            Against normal, in the field view
          </a>
        )}
        {event.repetition_id === null && <span class="quiet small">{fateOf(event)}</span>}
      </p>
    </section>
  );
}

function fateOf({ to_be_stored, athlete_id }: LiveResult): string {
  if (to_be_stored) return 'Being stored ...';
  return athlete_id === null
    ? 'Not stored yet: choose an athlete for the sensor, then it is.'
    : 'A replay: this result is not stored again.';
}

function Figure({ label, value }: { label: string; value: string }) {
  return (
    <div>
      <dt>{label}</dt>
      <dd>{value}</dd>
    </div>
  );
}

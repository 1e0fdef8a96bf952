import { phrasesOf, speech } from '../../app/language.ts';
import { commonWords } from '../../../shared/messages/en/view/common.ts';
import { liveWords } from '../../../shared/messages/en/view/live.ts';
import type { ContactsEvent } from '../../../shared/schemas/capture.ts';
import { displayOf, formatQuantity } from '../../app/format.ts';
import { Legend, LegendSide } from '../../parts/plot/legend.tsx';
import { RecordingNote } from '../repetition/recording-note.tsx';
import { ContactsPlot } from './contacts-plot.tsx';
import type { LiveResult } from './use-capture.ts';

const t = phrasesOf('live', liveWords);
const common = phrasesOf('common', commonWords);

/** Somebody is running: the contacts so far. */
export function RunningNow({ event }: { event: ContactsEvent }) {
  return (
    <section class="sheet live-running" aria-label={t('running_now_2')}>
      <h2>
        {event.athlete_name ?? t('running')}{' '}
        <span class="quiet">{t('running_contacts', { n_contacts: event.contacts.length })}</span>
      </h2>
      <ContactsPlot contacts={event.contacts} />
    </section>
  );
}

const overWords = (): Record<LiveResult['figures_over'], string> => ({
  'at speed': t('those_at_speed'),
  'all contacts': t('all_of_them'),
});

/** A repetition's result, as soon as it has ended. */
export function Result({ event, large }: { event: LiveResult; large: boolean }) {
  const found = event.contacts.length > 0;
  return (
    <section class={`sheet live-result${large ? ' is-large' : ''}`} aria-label={common('result')}>
      <h2>
        {event.athlete_name ?? t('nobody_named_2')}{' '}
        <span class="quiet">
          {found
            ? t('contacts_means_over', {
                n_contacts: event.contacts.length,
                over_words: overWords()[event.figures_over],
              })
            : t('no_running_found')}
        </span>
      </h2>
      {event.words && <p class="sensor-words">{speech.value.notice(event.words)}</p>}
      <RecordingNote quality={event.quality} />
      {found && (
        <dl class="live-figures">
          <Figure
            label={displayOf('contact_time_ms').label}
            value={formatQuantity('contact_time_ms', event.contact_time_ms)}
          />
          <Figure label={common('left')} value={formatQuantity('contact_time_ms', event.left_contact_time_ms)} />
          <Figure label={common('right')} value={formatQuantity('contact_time_ms', event.right_contact_time_ms)} />
          <Figure
            label={displayOf('flight_time_ms').label}
            value={formatQuantity('flight_time_ms', event.flight_time_ms)}
          />
          <Figure label={displayOf('step_rate_hz').label} value={formatQuantity('step_rate_hz', event.step_rate_hz)} />
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
            {t('open_the_repetition')}
          </a>
        )}
        {event.repetition_id !== null && event.session_id !== null && (
          <a class="button" href={`#/field/${event.session_id}`}>
            {t('against_normal_in_the_field')}
          </a>
        )}
        {event.repetition_id === null && <span class="quiet small">{fateOf(event)}</span>}
      </p>
    </section>
  );
}

function fateOf({ to_be_stored, athlete_id }: LiveResult): string {
  if (to_be_stored) return t('being_stored');
  return athlete_id === null ? t('not_stored_yet_choose_an') : t('a_replay_this_result_is');
}

function Figure({ label, value }: { label: string; value: string }) {
  return (
    <div>
      <dt>{label}</dt>
      <dd>{value}</dd>
    </div>
  );
}

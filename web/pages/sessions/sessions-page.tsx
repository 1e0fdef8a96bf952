import { phrasesOf } from '../../app/language.ts';
import { sessionWords } from '../../../shared/messages/en/view/session.ts';
import { commonWords } from '../../../shared/messages/en/view/common.ts';
import { useState } from 'preact/hooks';
import type { Session } from '../../../shared/schemas/session.ts';
import { paths } from '../../api.ts';
import { type Directory, useDirectory } from '../../app/directory.ts';
import { formatDate, formatDay, formatMonth } from '../../app/format.ts';
import { go, type PageProps, setQuery } from '../../app/router.ts';
import { usePagedSessions } from '../../app/use-sessions.ts';
import { DemoNote } from '../../parts/demo-note.tsx';
import { DeletedList } from '../../parts/deleted-list.tsx';
import { EmptyState } from '../../parts/empty-state.tsx';
import { FaultBox } from '../../parts/fault-box.tsx';
import { ReplayOffer } from '../../parts/replay-offer.tsx';
import { ResourceView } from '../../parts/resource-view.tsx';
import { SelectField } from '../../parts/select-field.tsx';
import { SessionDialog } from '../session/session-dialog.tsx';

const common = phrasesOf('common', commonWords);
const t = phrasesOf('session', sessionWords);

/** Sessions, newest first, by month; earlier ones when they are asked for. */
export default function SessionsPage({ query }: PageProps) {
  const athlete = query.get('athlete_id');
  const group = query.get('group_id');
  const filter = new URLSearchParams();
  if (athlete) filter.set('athlete_id', athlete);
  if (group) filter.set('group_id', group);
  const text = filter.toString();
  const { newest, sessions, earlier, showEarlier, fault } = usePagedSessions(text);
  const directory = useDirectory();
  const [adding, setAdding] = useState(false);

  return (
    <>
      <div class="page-head">
        <h1>{common('page_Sessions')}</h1>
        <div class="actions">
          <button type="button" onClick={() => setAdding(true)}>
            {t('new_session')}
          </button>
          <a class="button primary" href="#/files">
            {common('files_in')}
          </a>
        </div>
      </div>
      <DemoNote onProgress={() => void newest.reload()} />
      {text === '' && newest.value && <ReplayOffer sessions={sessions} />}
      <div class="field-grid no-print">
        <SelectField
          label={common('athlete_3')}
          value={athlete ?? ''}
          options={[
            { value: '', label: t('all_athletes') },
            ...(directory.athletes.value?.items ?? []).map(({ athlete_id, name }) => ({
              value: String(athlete_id),
              label: name,
            })),
          ]}
          onChange={(value) => setQuery('athlete_id', value || null)}
        />
        <SelectField
          label={common('group_2')}
          value={group ?? ''}
          options={[
            { value: '', label: t('all_groups') },
            ...(directory.groups.value?.items ?? []).map(({ group_id, name }) => ({
              value: String(group_id),
              label: name,
            })),
          ]}
          onChange={(value) => setQuery('group_id', value || null)}
        />
      </div>
      <ResourceView resource={newest} name={t('sessions')}>
        {() =>
          sessions.length === 0 ? (
            <NoSessions filtered={text !== ''} />
          ) : (
            <SessionMonths sessions={sessions} directory={directory} />
          )
        }
      </ResourceView>
      {fault && <FaultBox fault={fault} onRetry={() => void showEarlier()} />}
      {earlier > 0 && (
        <p class="actions no-print">
          <button type="button" onClick={() => void showEarlier()}>
            {t('show_earlier', { n: earlier })}
          </button>
        </p>
      )}
      <DeletedList<Session>
        what={t('sessions')}
        path={paths.sessions}
        id={({ session_id }) => session_id}
        name={({ title }) => title || common('page_Session')}
        detail={({ session_date, repetition_count }) =>
          `${formatDate(session_date)}, ${common('repetitions', { n: repetition_count })}`
        }
        onRestored={newest.reload}
      />
      <SessionDialog
        open={adding}
        directory={directory}
        onClose={() => setAdding(false)}
        onSaved={(session) => go(paths.session(session.session_id))}
      />
    </>
  );
}

function SessionMonths({ sessions, directory }: { sessions: Session[]; directory: Directory }) {
  const months = new Map<string, Session[]>();
  for (const session of [...sessions].sort((a, b) => b.session_date.localeCompare(a.session_date))) {
    const month = session.session_date.slice(0, 7);
    months.set(month, [...(months.get(month) ?? []), session]);
  }
  return (
    <>
      {[...months].map(([month, list]) => (
        <section key={month} class="month">
          <h2>{formatMonth(month)}</h2>
          <ul class="lines">
            {list.map((session) => (
              <li key={session.session_id}>
                <SessionLine session={session} directory={directory} />
              </li>
            ))}
          </ul>
        </section>
      ))}
    </>
  );
}

function SessionLine({ session, directory }: { session: Session; directory: Directory }) {
  const who =
    session.group_id !== null ? directory.groupName(session.group_id) : directory.athleteName(session.athlete_id);
  const open = session.repetition_count - session.analysed_count;
  return (
    <a class="line" href={`#${paths.session(session.session_id)}`}>
      <span class="line-lead">{formatDay(session.session_date)}</span>
      <span class="line-main">
        <strong>{session.title || common('page_Session')}</strong>
        <span class="quiet">{[who, session.place].filter(Boolean).join(', ')}</span>
      </span>
      <span class="line-end">
        {session.repetition_count === 0
          ? t('no_repetitions_yet')
          : common('repetitions', { n: session.repetition_count })}
        <span class="quiet">
          {common('n_athletes', { n: session.athlete_ids.length })}
          {open > 0 && t('without_a_result', { open })}
        </span>
      </span>
    </a>
  );
}

function NoSessions({ filtered }: { filtered: boolean }) {
  if (filtered) {
    return (
      <EmptyState title={t('no_session_fits')}>
        <p>{t('no_session_of_this_athlete')}</p>
      </EmptyState>
    );
  }
  return (
    <EmptyState title={t('no_sessions_yet')}>
      <p>{t('a_session_holds_one_days')}</p>
      <ol>
        <li>{t('fasten_a_sensor_to_each')}</li>
        <li>
          {t('bring_the_two_files_here')}
          <a href="#/files">{common('files_in')}</a>
          {t('the_session_is_made_on')}
        </li>
        <li>{t('look_at_each_contact_from')}</li>
      </ol>
    </EmptyState>
  );
}

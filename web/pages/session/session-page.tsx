import { phrasesOf } from '../../app/language.ts';
import { commonWords } from '../../../shared/messages/en/view/common.ts';
import { sessionWords } from '../../../shared/messages/en/view/session.ts';
import { useState } from 'preact/hooks';
import '../coach/coach.css';
import './session.css';
import type { SessionVerdicts } from '../../../shared/schemas/coach/standing.ts';
import type { SessionWithRepetitions } from '../../../shared/schemas/session.ts';
import { api, paths } from '../../api.ts';
import { useDirectory } from '../../app/directory.ts';
import { formatDate, localToday } from '../../app/format.ts';
import { go, type PageProps, setQuery } from '../../app/router.ts';
import { useRefresh } from '../../app/use-refresh.ts';
import { useResource } from '../../app/use-resource.ts';
import { Choice } from '../../parts/choice.tsx';
import { EmptyState } from '../../parts/empty-state.tsx';
import { ResourceView } from '../../parts/resource-view.tsx';
import { offerUndo } from '../../parts/undo.tsx';
import { coachPaths } from '../coach/coach-api.ts';
import { CautionList } from '../coach/parts/caution-list.tsx';
import { AthleteRepetitions } from './athlete-repetitions.tsx';
import { AthleteVerdicts } from './athlete-verdicts.tsx';
import { RepetitionsTable } from './repetitions-table.tsx';
import { SessionDialog } from './session-dialog.tsx';

const t = phrasesOf('session', sessionWords);
const common = phrasesOf('common', commonWords);

const ORDERS = ['verdicts', 'athlete', 'running'] as const;
type Order = (typeof ORDERS)[number];
const ORDER_WORDS = { verdicts: 'verdicts', athlete: 'all_numbers', running: 'in_running_order' } as const;

/** One day: verdicts and marks by athlete first, all numbers on request. */
export default function SessionPage({ params, query }: PageProps) {
  const session = useResource<SessionWithRepetitions>(paths.session(params.session_id));
  const directory = useDirectory();
  const [changing, setChanging] = useState(false);
  const asked = query.get('order');
  const order: Order = ORDERS.find((one) => one === asked) ?? 'verdicts';
  const verdicts = useResource<SessionVerdicts>(
    order === 'verdicts' ? coachPaths.sessionVerdicts(params.session_id) : null,
  );
  const first = Number(query.get('athlete_id')) || null;
  const waiting = session.value?.repetitions.some((line) => line.state === 'recorded' && !line.fault) ?? false;
  const isToday = session.value?.session_date === localToday();
  const reload = async () => {
    await Promise.all([session.reload(), verdicts.reload()]);
  };
  useRefresh(reload, waiting ? 1500 : isToday ? 10_000 : null);

  async function remove(value: SessionWithRepetitions) {
    await api.deleteSession(value.session_id);
    offerUndo(t('session_of_deleted', { session_date: formatDate(value.session_date) }), async () => {
      await api.restoreSession(value.session_id);
      go(paths.session(value.session_id));
    });
    go(paths.sessions);
  }

  return (
    <ResourceView resource={session} name={common('replay_session')}>
      {(value) => (
        <>
          <p class="trail no-print">
            <a href="#/sessions">{common('page_Sessions')}</a>
          </p>
          <div class="page-head">
            <div>
              <h1>{value.title || common('page_Session')}</h1>
              <p class="quiet">
                {[
                  formatDate(value.session_date),
                  directory.groupName(value.group_id),
                  value.place,
                  value.surface,
                  common('repetitions', { n: value.repetitions.length }),
                ]
                  .filter(Boolean)
                  .join(', ')}
              </p>
            </div>
            <div class="actions">
              <a class="button primary" href={`#/files?session_id=${value.session_id}`}>
                {t('add_files')}
              </a>
              <button type="button" onClick={() => setChanging(true)}>
                {common('change')}
              </button>
              <button type="button" onClick={() => void remove(value)}>
                {common('delete')}
              </button>
            </div>
          </div>
          <nav class="links no-print" aria-label={t('more_of_this_session')}>
            <a href={`#/field/${value.session_id}`}>{t('field_screen')}</a>
            <a href={`#/plan/${value.session_id}`}>{common('page_Plan')}</a>
            <a href={`#/sessions/${value.session_id}/fatigue`}>{common('through_the_session')}</a>
            <a href={`#/compare?kind=repetitions&session_id=${value.session_id}`}>{common('compare')}</a>
          </nav>
          {value.notes && <p class="notes">{value.notes}</p>}
          {value.repetitions.length === 0 ? (
            <EmptyState title={t('no_repetitions_in_this_session')}>
              <p>
                {t('bring_in_the_files_of')}
                <strong>{t('add_files')}</strong>
                {t('or_record_them_live_each')}
              </p>
            </EmptyState>
          ) : (
            <>
              <Choice
                legend={t('show_repetitions')}
                quiet
                value={order}
                options={ORDERS.map((one) => ({ value: one, label: t(ORDER_WORDS[one]) }))}
                onChange={(next) => setQuery('order', next === 'verdicts' ? null : next)}
              />
              {order === 'verdicts' ? (
                <ResourceView resource={verdicts} name={t('the_verdicts')}>
                  {(judged) => <AthleteVerdicts verdicts={judged} doubts={value.recording_doubts} first={first} />}
                </ResourceView>
              ) : order === 'running' ? (
                <RepetitionsTable
                  doubts={value.recording_doubts}
                  caption={t('repetitions_in_running_order')}
                  repetitions={value.repetitions}
                  athleteName={directory.athleteName}
                />
              ) : (
                <AthleteRepetitions
                  repetitions={value.repetitions}
                  doubts={value.recording_doubts}
                  athleteName={directory.athleteName}
                />
              )}
            </>
          )}
          {verdicts.value && <CautionList cautions={verdicts.value.cautions} />}
          <SessionDialog
            session={value}
            open={changing}
            directory={directory}
            onClose={() => setChanging(false)}
            onSaved={() => void session.reload()}
          />
        </>
      )}
    </ResourceView>
  );
}

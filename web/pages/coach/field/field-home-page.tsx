import { commonWords } from '../../../../shared/messages/en/view/common.ts';
import { fieldWords } from '../../../../shared/messages/en/view/field.ts';
import { phrasesOf } from '../../../app/language.ts';
import '../coach.css';
import { useEffect } from 'preact/hooks';
import type { SessionList } from '../../../../shared/schemas/session.ts';
import { paths } from '../../../api.ts';
import { formatDate, localToday } from '../../../app/format.ts';
import { useResource } from '../../../app/use-resource.ts';
import { DemoNote } from '../../../parts/demo-note.tsx';
import { EmptyState } from '../../../parts/empty-state.tsx';
import { ReplayOffer } from '../../../parts/replay-offer.tsx';
import { ResourceView } from '../../../parts/resource-view.tsx';
import { readKept } from '../kept.ts';
import { LAST_FIELD } from './use-field.ts';

const common = phrasesOf('common', commonWords);

const t = phrasesOf('field', fieldWords);

/** Leads to today's session, or lets the coach choose one; without network to the one that is kept on this device. */
export default function FieldHomePage() {
  const sessions = useResource<SessionList>(paths.latestSessions);
  const today = localToday();
  const items = [...(sessions.value?.items ?? [])].sort((a, b) => b.session_date.localeCompare(a.session_date));
  const todays = items.filter((session) => session.session_date === today);
  useEffect(() => {
    if (todays.length === 1) window.location.replace(`#/field/${todays[0].session_id}`);
  }, [todays]);
  const unreachable = sessions.value === null && sessions.fault?.code === 'SERVER_UNREACHABLE';
  useEffect(() => {
    const last = unreachable ? readKept<string>(LAST_FIELD) : null;
    if (last) window.location.replace(`#/field/${last}`);
  }, [unreachable]);
  return (
    <>
      <h1>{t('field')}</h1>
      <ResourceView resource={sessions} name={t('sessions')}>
        {() =>
          items.length === 0 ? (
            <EmptyState title={t('no_session_yet')}>
              <p>{t('no_session_why')}</p>
              <p class="actions">
                <a class="button primary" href="#/plan">
                  {t('plan_a_session')}
                </a>
              </p>
            </EmptyState>
          ) : (
            <>
              <DemoNote />
              <ReplayOffer sessions={items} />
              <p>{todays.length > 1 ? t('several_today') : t('none_today')}</p>
              <ul class="lines">
                {items.slice(0, 12).map((session) => (
                  <li key={session.session_id}>
                    <a class="line athlete-line" href={`#/field/${session.session_id}`}>
                      <span class="line-main">
                        <strong>{session.title || t('session')}</strong>
                        <span class="quiet">{formatDate(session.session_date)}</span>
                      </span>
                      <span class="line-end">{common('repetitions', { n: session.repetition_count })}</span>
                    </a>
                  </li>
                ))}
              </ul>
              <p class="actions">
                <a class="button primary" href="#/plan">
                  {t('plan_a_session')}
                </a>
              </p>
            </>
          )
        }
      </ResourceView>
    </>
  );
}

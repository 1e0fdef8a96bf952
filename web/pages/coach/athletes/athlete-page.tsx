import '../coach.css';
import type { AthleteRecord } from '../../../../shared/schemas/coach/athlete-record.ts';
import type { SessionList } from '../../../../shared/schemas/session.ts';
import { paths } from '../../../api.ts';
import { formatDate, localToday } from '../../../app/format.ts';
import type { PageProps } from '../../../app/router.ts';
import { useResource } from '../../../app/use-resource.ts';
import { Cautions } from '../../../parts/cautions.tsx';
import { ResourceView } from '../../../parts/resource-view.tsx';
import { coachPaths } from '../coach-api.ts';
import { AthleteHead } from './athlete-head.tsx';
import { FocusSection } from './focus-section.tsx';

/** What the coach needs to know about one athlete now. */
export default function AthletePage({ params }: PageProps) {
  const record = useResource<AthleteRecord>(coachPaths.athlete(params.athlete_id));
  const sessions = useResource<SessionList>(`${paths.sessions}?athlete_id=${params.athlete_id}`);
  return (
    <ResourceView resource={record} name="the athlete">
      {(value) => (
        <>
          <AthleteHead athlete_id={params.athlete_id} name={value.athlete.name} />
          <FocusSection record={value} onChanged={record.reload} />
          <section>
            <h2>Sessions</h2>
            {(sessions.value?.items.length ?? 0) === 0 ? (
              <p>No session yet. Plan one and name {value.athlete.name} in it, or bring files in.</p>
            ) : (
              <ul class="lines">
                {[...sessions.value!.items]
                  .sort((a, b) => b.session_date.localeCompare(a.session_date))
                  .slice(0, 6)
                  .map((session) => (
                    <li key={session.session_id}>
                      <a class="line athlete-line" href={`#/field/${session.session_id}`}>
                        <span class="line-main">
                          <strong>{session.title || 'Session'}</strong>
                          <span class="quiet">{formatDate(session.session_date)}</span>
                        </span>
                      </a>
                    </li>
                  ))}
              </ul>
            )}
          </section>
          <section>
            <h2>Tell {value.athlete.name}</h2>
            <p>One page, no jargon: what was measured this month, what changed, what is next.</p>
            <p class="actions">
              <a class="button" href={`#/reports/month/${params.athlete_id}/${localToday().slice(0, 7)}`}>
                This month's page
              </a>
            </p>
          </section>
          <Cautions />
        </>
      )}
    </ResourceView>
  );
}

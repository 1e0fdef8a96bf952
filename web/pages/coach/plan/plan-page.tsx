import '../coach.css';
import type { SessionPlan } from '../../../../shared/schemas/coach/plan.ts';
import type { Session } from '../../../../shared/schemas/session.ts';
import { paths } from '../../../api.ts';
import type { PageProps } from '../../../app/router.ts';
import { useResource } from '../../../app/use-resource.ts';
import { ResourceView } from '../../../parts/resource-view.tsx';
import { coachPaths } from '../coach-api.ts';
import { PlanEditor } from './plan-editor.tsx';

/** The plan of one session. */
export default function PlanPage({ params }: PageProps) {
  const { session_id } = params;
  const session = useResource<Session>(paths.session(session_id));
  const plan = useResource<SessionPlan>(coachPaths.plan(session_id));
  return (
    <ResourceView resource={session} name="the session">
      {(stored) => (
        <ResourceView resource={plan} name="the plan">
          {(kept) => <PlanEditor key={session_id} session={stored} plan={kept} onKept={plan.set} />}
        </ResourceView>
      )}
    </ResourceView>
  );
}

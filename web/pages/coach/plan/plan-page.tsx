import { phrasesOf } from '../../../app/language.ts';
import { planWords } from '../../../../shared/messages/en/view/plan.ts';
import { commonWords } from '../../../../shared/messages/en/view/common.ts';
import '../coach.css';
import type { SessionPlan } from '../../../../shared/schemas/coach/plan.ts';
import type { Session } from '../../../../shared/schemas/session.ts';
import { paths } from '../../../api.ts';
import type { PageProps } from '../../../app/router.ts';
import { useResource } from '../../../app/use-resource.ts';
import { ResourceView } from '../../../parts/resource-view.tsx';
import { coachPaths } from '../coach-api.ts';
import { PlanEditor } from './plan-editor.tsx';

const common = phrasesOf('common', commonWords);
const t = phrasesOf('plan', planWords);

/** The plan of one session. */
export default function PlanPage({ params }: PageProps) {
  const { session_id } = params;
  const session = useResource<Session>(paths.session(session_id));
  const plan = useResource<SessionPlan>(coachPaths.plan(session_id));
  return (
    <ResourceView resource={session} name={common('the_session')}>
      {(stored) => (
        <ResourceView resource={plan} name={t('the_plan')}>
          {(kept) => <PlanEditor key={session_id} session={stored} plan={kept} onKept={plan.set} />}
        </ResourceView>
      )}
    </ResourceView>
  );
}

import '../coach.css';
import { PlanEditor } from './plan-editor.tsx';

/** A plan for a session that does not exist yet. */
export default function NewPlanPage() {
  return <PlanEditor session={null} plan={null} />;
}

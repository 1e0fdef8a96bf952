import '../coach.css';
import type { PageProps } from '../../../app/router.ts';
import { FieldScreen } from './field-screen.tsx';
import { ReplayPage } from './replay-page.tsx';
import { useField } from './use-field.ts';

/** Between repetitions: who just ran, what was different, who is next; with `?replay=1` over a replay of the session. */
export default function FieldPage({ params: { session_id }, query }: PageProps) {
  return query.has('replay') ? <ReplayPage session_id={session_id} /> : <LiveField session_id={session_id} />;
}

function LiveField({ session_id }: { session_id: string }) {
  return <FieldScreen session_id={session_id} field={useField(session_id)} />;
}

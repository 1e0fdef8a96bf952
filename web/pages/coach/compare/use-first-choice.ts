import { useEffect } from 'preact/hooks';
import { addDays } from '../../../../shared/dates.ts';
import type { AthleteRecord } from '../../../../shared/schemas/coach/athlete-record.ts';
import type { SessionWithRepetitions } from '../../../../shared/schemas/session.ts';
import { paths } from '../../../api.ts';
import { localToday } from '../../../app/format.ts';
import { setQuery } from '../../../app/router.ts';
import { useResource } from '../../../app/use-resource.ts';
import { coachPaths } from '../coach-api.ts';
import type { ComparedKind } from './compare-keys.ts';
import { BEFORE_DAYS } from './side-picker.tsx';

/**
 * What is compared where the page was opened from an athlete (before the current focus and since) or from a session (the two
 * hardest repetitions of whoever ran first). Chosen once; whatever is in the address already stays.
 */
export function useFirstChoice(kind: ComparedKind, query: URLSearchParams): void {
  const open = !query.has('a');
  const athlete_id = query.get('athlete_id');
  const session_id = query.get('session_id');
  const record = useResource<AthleteRecord>(
    open && kind === 'blocks' && athlete_id !== null ? coachPaths.athlete(athlete_id) : null,
  );
  const session = useResource<SessionWithRepetitions>(
    open && kind === 'repetitions' && session_id !== null ? paths.session(session_id) : null,
  );
  useEffect(() => {
    const from = record.value?.focuses[0]?.from_date;
    if (open && athlete_id !== null && record.value) {
      setQuery('a', from ? `${athlete_id}.${addDays(from, -BEFORE_DAYS)}.${addDays(from, -1)}` : athlete_id);
      setQuery('b', from ? `${athlete_id}.${from}.${localToday()}` : athlete_id);
    }
  }, [record.value]);
  useEffect(() => {
    const analysed = session.value?.repetitions.filter((line) => line.analysis_id !== null) ?? [];
    const first = analysed.find(({ athlete_id: who }) => analysed.filter((line) => line.athlete_id === who).length > 1);
    if (!open || !first) return;
    const [last, before] = analysed
      .filter((line) => line.athlete_id === first.athlete_id)
      .sort((x, y) => (y.effort_percent ?? 0) - (x.effort_percent ?? 0) || y.order_number - x.order_number);
    setQuery('a', `${first.athlete_id}.${session_id}.${before.repetition_id}`);
    setQuery('b', `${first.athlete_id}.${session_id}.${last.repetition_id}`);
  }, [session.value]);
}

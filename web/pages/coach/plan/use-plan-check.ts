import { useEffect, useRef, useState } from 'preact/hooks';
import type { PlanCheck, PlanLimits, PlanQuestion } from '../../../../shared/schemas/coach/plan.ts';
import { coachApi } from '../coach-api.ts';

/** Pause after the last change before the server is asked. */
const PAUSE_MS = 60;

/**
 * Totals and warnings of a draft, checked by the server, which knows the limits and the days around.
 * @param first the check of the stored plan
 * @param limits asked again when they change
 */
export function usePlanCheck(question: PlanQuestion, first: PlanCheck | null, limits: PlanLimits | null) {
  const [check, setCheck] = useState<PlanCheck | null>(first);
  const asked = useRef(0);
  const { session_date, sets, athlete_ids } = question;
  useEffect(() => {
    if (!/^\d{4}-\d{2}-\d{2}$/.test(session_date)) return;
    const number = ++asked.current;
    const timer = setTimeout(async () => {
      try {
        const answer = await coachApi.checkPlan({ session_date, sets, athlete_ids });
        if (number === asked.current) setCheck(answer);
      } catch {
        // The last check stays; keeping the plan will say what is wrong.
      }
    }, PAUSE_MS);
    return () => clearTimeout(timer);
  }, [session_date, sets, athlete_ids, limits]);
  return check;
}

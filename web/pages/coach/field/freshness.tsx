import { useEffect, useState } from 'preact/hooks';
import type { Fault } from '../../../../shared/fault.ts';
import { waitingRatings } from './rating-outbox.ts';

interface FreshnessProps {
  answered_ms: number | null;
  fault: Fault | null;
  onRetry: () => void;
}

/** How old what is on screen is. Silent while the network is fine. */
export function Freshness({ answered_ms, fault, onRetry }: FreshnessProps) {
  const [now, setNow] = useState(Date.now());
  useEffect(() => {
    const timer = setInterval(() => setNow(Date.now()), 1000);
    return () => clearInterval(timer);
  }, []);
  const waiting = waitingRatings.value.length;
  const kept = waiting > 0 ? ` ${waiting} ${waiting === 1 ? 'rating' : 'ratings'} kept here until then.` : '';
  return (
    <p class={fault ? 'freshness is-old' : 'freshness'} role="status">
      {fault === null ? (
        <>Live{waiting > 0 ? `, ${waiting} to send` : ''}</>
      ) : (
        <>
          <strong>No answer.</strong> Results from {answered_ms === null ? 'before' : ago(now - answered_ms)}; trying
          again by itself.{kept}{' '}
          <button type="button" class="plain freshness-retry" onClick={onRetry}>
            Try now
          </button>
        </>
      )}
    </p>
  );
}

/** `12 s ago`, `3 min ago`, `2 h ago`. */
export function ago(ms: number): string {
  const seconds = Math.max(0, Math.round(ms / 1000));
  if (seconds < 90) return `${seconds} s ago`;
  const minutes = Math.round(seconds / 60);
  return minutes < 90 ? `${minutes} min ago` : `${Math.round(minutes / 60)} h ago`;
}

import { fieldWords } from '../../../../shared/messages/en/view/field.ts';
import { phrasesOf } from '../../../app/language.ts';
import type { Fault } from '../../../../shared/fault.ts';
import { useNow } from '../../../app/use-now.ts';
import { waitingTimes } from './hand-times.ts';
import { waitingPhotos } from './photo-outbox.ts';
import { waitingRatings } from './rating-outbox.ts';

const t = phrasesOf('field', fieldWords);

interface FreshnessProps {
  answered_ms: number | null;
  fault: Fault | null;
  onRetry: () => void;
}

/** How old what is on screen is. Silent while the network is fine. */
export function Freshness({ answered_ms, fault, onRetry }: FreshnessProps) {
  const now = useNow(fault !== null);
  const waiting =
    waitingRatings.value.length +
    waitingPhotos.value.length +
    waitingTimes.value.filter((time) => time.repetition_id !== null).length;
  return (
    <p class={fault ? 'freshness is-old' : 'freshness'} role="status">
      {fault === null ? (
        waiting > 0 ? (
          t('live_to_send', { n: waiting })
        ) : (
          t('live')
        )
      ) : (
        <>
          <strong>{t('no_answer')}</strong>{' '}
          {t('results_from', { when: answered_ms === null ? t('before') : ago(now - answered_ms), kept: waiting })}{' '}
          <button type="button" class="plain freshness-retry" onClick={onRetry}>
            {t('try_now')}
          </button>
        </>
      )}
    </p>
  );
}

/** `12 s ago`, `3 min ago`, `2 h ago`. */
export function ago(ms: number): string {
  const seconds = Math.max(0, Math.round(ms / 1000));
  if (seconds < 90) return t('seconds_ago', { n: seconds });
  const minutes = Math.round(seconds / 60);
  return minutes < 90 ? t('minutes_ago', { n: minutes }) : t('hours_ago', { n: Math.round(minutes / 60) });
}

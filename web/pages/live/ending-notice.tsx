import { phrasesOf } from '../../app/language.ts';
import { liveWords } from '../../../shared/messages/en/view/live.ts';

const t = phrasesOf('live', liveWords);
interface EndingNoticeProps {
  /** Packets that wait for room on the disk. */
  packets: number;
  busy: boolean;
  onGiveUp: () => void;
}

/** The recording has ended, but its last packets found no room: nothing is lost while the program runs, and the coach decides. */
export function EndingNotice({ packets, busy, onGiveUp }: EndingNoticeProps) {
  return (
    <section class="sheet" role="alert" aria-label={t('packets_that_wait_for_room')}>
      <p>
        <strong>{t('the_disk_is_full')}</strong>
        {t('the_sensors_are_stopped_packets', { packets })}
      </p>
      <button type="button" disabled={busy} onClick={onGiveUp}>
        {t('give_up_what_waits')}
      </button>
    </section>
  );
}

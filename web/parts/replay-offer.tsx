import { useEffect, useState } from 'preact/hooks';
import type { Fault } from '../../shared/fault.ts';
import type { CaptureState } from '../../shared/schemas/capture.ts';
import type { Session } from '../../shared/schemas/session.ts';
import { commonWords } from '../../shared/messages/en/view/common.ts';
import { formatShortDate } from '../app/format.ts';
import { phrasesOf } from '../app/language.ts';
import { go } from '../app/router.ts';
import { client, faultOf } from '../client.ts';
import { FaultBox } from './fault-box.tsx';

const common = phrasesOf('common', commonWords);

/** Offered to who has no sensors: the newest session with several athletes, live again in the field view. */
export function ReplayOffer({ sessions }: { sessions: readonly Session[] }) {
  const [capture, setCapture] = useState<CaptureState | null>(null);
  const [fault, setFault] = useState<Fault | null>(null);
  const [busy, setBusy] = useState(false);
  useEffect(() => {
    // A device that may not record gets no answer, and no offer.
    client.get<CaptureState>('/capture').then(setCapture, () => undefined);
  }, []);
  const session = newestPlayable(sessions);
  if (!session || capture === null || capture.sensors.length > 0) return null;
  const running = capture.capture !== null;

  async function play({ session_id }: Session) {
    setBusy(true);
    setFault(null);
    try {
      if (!running) await client.post('/capture/replay', { session_id, speed: 2 });
      go(`/field/${running ? (capture?.capture?.session_id ?? session_id) : session_id}?replay=1`);
    } catch (error) {
      setFault(faultOf(error));
    } finally {
      setBusy(false);
    }
  }

  return (
    <aside class="replay-offer no-print" aria-label={common('replay_offer')}>
      <p>
        <strong>{common('replay_offer')}</strong>{' '}
        {common('replay_what', {
          title: session.title || common('replay_session'),
          date: formatShortDate(session.session_date),
          n: session.athlete_ids.length,
        })}
      </p>
      <button type="button" disabled={busy} onClick={() => void play(session)}>
        {busy ? common('replay_preparing') : running ? common('replay_see') : common('replay_begin')}
      </button>
      {fault && <FaultBox fault={fault} />}
    </aside>
  );
}

/** The newest session with results of several athletes; of one athlete where there is no such. */
function newestPlayable(sessions: readonly Session[]): Session | null {
  const playable = [...sessions]
    .filter((session) => session.analysed_count > 0)
    .sort((a, b) => b.session_date.localeCompare(a.session_date));
  return playable.find((session) => session.athlete_ids.length > 1) ?? playable[0] ?? null;
}

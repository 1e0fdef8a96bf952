import { useState } from 'preact/hooks';
import { archiveWords } from '../../../shared/messages/en/view/archive.ts';
import type { ArchiveRun } from '../../../shared/schemas/archive.ts';
import type { Fault } from '../../../shared/fault.ts';
import { phrasesOf } from '../../app/language.ts';
import { faultOf } from '../../client.ts';
import { Dialog } from '../../parts/dialog.tsx';
import { FaultBox } from '../../parts/fault-box.tsx';
import { archiveApi, leftOf } from './archive-api.ts';

const t = phrasesOf('archive', archiveWords);

/** Shows the results of a re-analysis everywhere, after a question, or takes that back. */
export function AcceptRun({ run, onChanged }: { run: ArchiveRun; onChanged: () => Promise<void> }) {
  const [asking, setAsking] = useState(false);
  const [said, setSaid] = useState('');
  const [fault, setFault] = useState<Fault | null>(null);
  const change = async (how: 'accept' | 'revert') => {
    setAsking(false);
    try {
      const { changed } = await archiveApi.change(run.run_id, how);
      setFault(null);
      setSaid(t('changed', { n: changed }));
      await onChanged();
    } catch (error) {
      setFault(faultOf(error));
    }
  };
  if (leftOf(run) > 0 || run.done === 0) return null;
  return (
    <>
      {fault && <FaultBox fault={fault} />}
      {said && <p role="status">{said}</p>}
      <p class="accept-run">
        {run.accepted_utc === null ? (
          <button type="button" class="primary" onClick={() => setAsking(true)}>
            {t('accept_all')}
          </button>
        ) : (
          <button type="button" onClick={() => void change('revert')}>
            {t('take_back')}
          </button>
        )}
      </p>
      <Dialog title={t('accept_all')} open={asking} onClose={() => setAsking(false)}>
        <p>{t('accept_ask', { n: run.done })}</p>
        <button type="button" class="primary" onClick={() => void change('accept')}>
          {t('accept_yes')}
        </button>
      </Dialog>
    </>
  );
}

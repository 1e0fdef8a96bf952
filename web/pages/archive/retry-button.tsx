import { useState } from 'preact/hooks';
import { archiveWords } from '../../../shared/messages/en/view/archive.ts';
import type { Fault } from '../../../shared/fault.ts';
import { phrasesOf } from '../../app/language.ts';
import { faultOf } from '../../client.ts';
import { FaultBox } from '../../parts/fault-box.tsx';
import { archiveApi } from './archive-api.ts';

const t = phrasesOf('archive', archiveWords);

/** Has what failed of a run done again. */
export function RetryButton({ run_id, onChanged }: { run_id: string; onChanged: () => Promise<void> }) {
  const [fault, setFault] = useState<Fault | null>(null);
  const retry = async () => {
    try {
      await archiveApi.change(run_id, 'retry');
      setFault(null);
      await onChanged();
    } catch (error) {
      setFault(faultOf(error));
    }
  };
  return (
    <>
      {fault && <FaultBox fault={fault} />}
      <p class="retry-run">
        <button type="button" onClick={() => void retry()}>
          {t('retry_failed')}
        </button>
      </p>
    </>
  );
}

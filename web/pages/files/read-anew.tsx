import { phrasesOf } from '../../app/language.ts';
import { commonWords } from '../../../shared/messages/en/view/common.ts';
import { filesWords } from '../../../shared/messages/en/view/files.ts';
import { useState } from 'preact/hooks';
import type { Fault } from '../../../shared/fault.ts';
import { api } from '../../api.ts';
import { faultOf } from '../../client.ts';
import { FaultBox } from '../../parts/fault-box.tsx';
import { offerUndo } from '../../parts/undo.tsx';

const t = phrasesOf('files', filesWords);
const common = phrasesOf('common', commonWords);

interface ReadAnewProps {
  repetition_ids: number[];
  onTakenBack: () => void;
}

/** For files that were read wrongly: takes the result away and puts the files back into the form. */
export function ReadAnew({ repetition_ids, onTakenBack }: ReadAnewProps) {
  const [fault, setFault] = useState<Fault | null>(null);
  async function takeBack() {
    try {
      for (const repetition_id of repetition_ids) await api.deleteRepetition(repetition_id);
      offerUndo(t('taken_back', { repetitions: common('repetitions', { n: repetition_ids.length }) }), async () => {
        for (const repetition_id of repetition_ids) await api.restoreRepetition(repetition_id);
      });
      onTakenBack();
    } catch (error) {
      setFault(faultOf(error));
    }
  }
  return (
    <>
      {fault && <FaultBox fault={fault} />}
      <p>
        <button type="button" onClick={() => void takeBack()}>
          {t('read_wrongly_take_back_and')}
        </button>
      </p>
    </>
  );
}

import { useState } from 'preact/hooks';
import type { Fault } from '../../../shared/fault.ts';
import { api } from '../../api.ts';
import { count } from '../../app/describe.ts';
import { faultOf } from '../../client.ts';
import { FaultBox } from '../../parts/fault-box.tsx';
import { offerUndo } from '../../parts/undo.tsx';

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
      offerUndo(`${count(repetition_ids.length, 'repetition')} taken back.`, async () => {
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
          Read wrongly? Take back and correct the columns
        </button>
      </p>
    </>
  );
}

import { filesWords } from '../../../shared/messages/en/view/files.ts';
import { useState } from 'preact/hooks';
import type { Fault } from '../../../shared/fault.ts';
import { speech, phrasesOf } from '../../app/language.ts';
import { api } from '../../api.ts';
import { faultOf } from '../../client.ts';
import { FaultBox } from '../../parts/fault-box.tsx';
import { choicesOf } from './choices-of.ts';

const t = phrasesOf('files', filesWords);

interface LayoutQuestionProps {
  import_id: number;
  fault: Fault;
  onAnswered: () => void;
}

/** A refused file: what was found; where it can be read in more than one way, the ways as buttons. */
export function LayoutQuestion({ import_id, fault, onAnswered }: LayoutQuestionProps) {
  const [refusal, setRefusal] = useState<Fault | null>(null);
  const choices = choicesOf(fault);

  async function answer(correction: string) {
    try {
      await api.retryImport(import_id, { layout: correction });
      setRefusal(null);
      onAnswered();
    } catch (error) {
      setRefusal(faultOf(error));
    }
  }

  if (choices.length === 0) return <FaultBox fault={fault} />;
  return (
    <div class="fault" role="alert">
      <p class="fault-message">{speech.value.tell(fault).message}</p>
      <p>{t('which_is_right')}</p>
      <div class="actions">
        {choices.map((choice) => (
          <button key={choice.correction} type="button" onClick={() => void answer(choice.correction)}>
            {choice.label.replaceAll('+-', '±')}
          </button>
        ))}
      </div>
      {refusal && <FaultBox fault={refusal} />}
    </div>
  );
}

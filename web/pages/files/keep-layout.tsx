import { phrasesOf } from '../../app/language.ts';
import { filesWords } from '../../../shared/messages/en/view/files.ts';
import { useState } from 'preact/hooks';
import type { Fault } from '../../../shared/fault.ts';
import { api } from '../../api.ts';
import { faultOf } from '../../client.ts';
import { FaultBox } from '../../parts/fault-box.tsx';
import { TextField } from '../../parts/text-field.tsx';

const t = phrasesOf('files', filesWords);

interface KeepLayoutProps {
  import_id: number;
  /** Proposes a name. */
  fileName: string;
}

/** Keeps the answer to a layout question, so that the next file of this shape is read without asking. */
export function KeepLayout({ import_id, fileName }: KeepLayoutProps) {
  const [name, setName] = useState(fileName.replace(/\.[^.]*$/, ''));
  const [kept, setKept] = useState(false);
  const [fault, setFault] = useState<Fault | null>(null);
  async function keep() {
    try {
      await api.keepLayout(import_id, name.trim());
      setKept(true);
    } catch (error) {
      setFault(faultOf(error));
    }
  }
  if (kept) {
    return (
      <p role="status">
        {t('kept_as_files_of_this', { name })}
        <a href="#/layouts">{t('file_layouts')}</a>.
      </p>
    );
  }
  return (
    <div class="keep-layout">
      {fault && <FaultBox fault={fault} />}
      <TextField
        label={t('keep_your_answer_for_files')}
        value={name}
        onChange={setName}
        help={t('for_instance_the_sensors_name')}
      />
      <button type="button" disabled={name.trim() === ''} onClick={() => void keep()}>
        {t('keep')}
      </button>
    </div>
  );
}

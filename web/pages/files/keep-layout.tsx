import { useState } from 'preact/hooks';
import type { Fault } from '../../../shared/fault.ts';
import { api } from '../../api.ts';
import { faultOf } from '../../client.ts';
import { FaultBox } from '../../parts/fault-box.tsx';
import { TextField } from '../../parts/text-field.tsx';

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
        Kept as "{name}". Files of this shape are read so from now on; change that under{' '}
        <a href="#/layouts">File layouts</a>.
      </p>
    );
  }
  return (
    <div class="keep-layout">
      {fault && <FaultBox fault={fault} />}
      <TextField
        label="Keep your answer for files of this shape, as"
        value={name}
        onChange={setName}
        help="For instance the sensor's name."
      />
      <button type="button" disabled={name.trim() === ''} onClick={() => void keep()}>
        Keep
      </button>
    </div>
  );
}

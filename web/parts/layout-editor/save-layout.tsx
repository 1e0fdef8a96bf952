import { phrasesOf } from '../../app/language.ts';
import { filesWords } from '../../../shared/messages/en/view/files.ts';
import { useState } from 'preact/hooks';
import type { Fault } from '../../../shared/fault.ts';
import type { Layout } from '../../../shared/schemas/layout.ts';
import type { SavedLayout } from '../../../shared/schemas/saved-layout.ts';
import { api } from '../../api.ts';
import { faultOf } from '../../client.ts';
import { FaultBox } from '../fault-box.tsx';
import { TextField } from '../text-field.tsx';

const t = phrasesOf('files', filesWords);

interface SaveLayoutProps {
  /** As the reader made it; null while the file cannot be read. */
  layout: Layout | null;
  /** Proposed name. */
  name: string;
  onSaved?: () => void;
}

/** Keeps a layout under a name: the next file of its shape is read with it. One of the same name and shape is changed. */
export function SaveLayout({ layout, name: proposed, onSaved }: SaveLayoutProps) {
  const [name, setName] = useState(proposed);
  const [saved, setSaved] = useState<{ name: string; layout: Layout } | null>(null);
  const [fault, setFault] = useState<Fault | null>(null);

  async function keep() {
    if (!layout) return;
    try {
      const kept = await saveAs(name.trim(), layout);
      setSaved({ name: kept.name, layout });
      setFault(null);
      onSaved?.();
    } catch (error) {
      setFault(faultOf(error));
    }
  }

  return (
    <div class="keep-layout">
      {fault && <FaultBox fault={fault} />}
      <TextField
        label={t('keep_for_the_next_files')}
        value={name}
        onChange={setName}
        help={t('for_instance_the_sensors_name')}
      />
      <button type="button" disabled={!layout || name.trim() === ''} onClick={() => void keep()}>
        {t('keep_layout')}
      </button>
      {saved && saved.layout === layout && (
        <p role="status">
          {t('kept_as_files_of_this_2', { name: saved.name })}
          <a href="#/layouts">{t('file_layouts')}</a>.
        </p>
      )}
    </div>
  );
}

async function saveAs(name: string, layout: Layout): Promise<SavedLayout> {
  const { items } = await api.layouts();
  const same = items.find((item) => item.name === name);
  if (!same) return api.addLayout({ name, layout });
  if (same.layout.fingerprint !== layout.fingerprint)
    throw new Error(`"${name}" is the layout of files of another shape. Nothing was kept; choose another name.`);
  return api.changeLayout(same.layout_id, { layout });
}

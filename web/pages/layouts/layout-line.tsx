import { phrasesOf } from '../../app/language.ts';
import { filesWords } from '../../../shared/messages/en/view/files.ts';
import { commonWords } from '../../../shared/messages/en/view/common.ts';
import { useState } from 'preact/hooks';
import type { Fault } from '../../../shared/fault.ts';
import type { SavedLayout } from '../../../shared/schemas/saved-layout.ts';
import { api } from '../../api.ts';
import { formatDate } from '../../app/format.ts';
import { faultOf } from '../../client.ts';
import { FaultBox } from '../../parts/fault-box.tsx';
import { AXIS_ROLES, roleWords } from '../../parts/layout-editor/column-roles.ts';
import { draftOfLayout } from '../../parts/layout-editor/layout-draft.ts';
import { TextField } from '../../parts/text-field.tsx';
import { saveJson } from '../../app/save-file.ts';
import { TryFile } from './try-file.tsx';

const common = phrasesOf('common', commonWords);
const t = phrasesOf('files', filesWords);

interface LayoutLineProps {
  saved: SavedLayout;
  onChanged: () => void;
  onDelete: () => void;
}

/** One kept layout: what it takes each column for; to be renamed, changed by a file, exported, deleted. */
export function LayoutLine({ saved, onChanged, onDelete }: LayoutLineProps) {
  const [open, setOpen] = useState(false);
  const hidden = <span class="visually-hidden"> {saved.name}</span>;
  return (
    <li class="line layout-line">
      <span class="line-main">
        <strong>{saved.name}</strong>
        <span class="quiet">
          {describe(saved)}, {formatDate(saved.created_utc)}
        </span>
      </span>
      <span class="button-row">
        <button type="button" aria-expanded={open} onClick={() => setOpen(!open)}>
          {open ? common('close') : t('look_change')}
          {hidden}
        </button>
        <button type="button" onClick={() => saveJson(`${saved.name}.layout.json`, saved)}>
          {t('export')}
          {hidden}
        </button>
        <button type="button" onClick={onDelete}>
          {common('delete')}
          {hidden}
        </button>
      </span>
      {open && (
        <div class="layout-open">
          <Rename saved={saved} onChanged={onChanged} />
          <Columns saved={saved} />
          <TryFile label={t('change_it_with_a_file')} layout={saved.layout} onSaved={onChanged} />
        </div>
      )}
    </li>
  );
}

function Rename({ saved, onChanged }: Omit<LayoutLineProps, 'onDelete'>) {
  const [name, setName] = useState(saved.name);
  const [fault, setFault] = useState<Fault | null>(null);
  async function rename() {
    try {
      await api.changeLayout(saved.layout_id, { name: name.trim() });
      setFault(null);
      onChanged();
    } catch (error) {
      setFault(faultOf(error));
    }
  }
  return (
    <div class="keep-layout">
      {fault && <FaultBox fault={fault} />}
      <TextField label={common('name')} value={name} onChange={setName} />
      <button type="button" disabled={name.trim() === '' || name.trim() === saved.name} onClick={() => void rename()}>
        {t('rename')}
      </button>
    </div>
  );
}

/** What each column is taken for. */
function Columns({ saved }: { saved: SavedLayout }) {
  const draft = draftOfLayout(saved.layout);
  const two = draft.arrangement === 'columns';
  return (
    <table class="verdicts">
      <caption>{t('columns')}</caption>
      <tbody>
        {draft.columns.map(({ role, sensor, turned }, at) => (
          <tr key={at}>
            <th scope="row">{saved.layout.column_names[at] || t('column', { at: at + 1 })}</th>
            <td class={role === 'none' ? 'quiet' : undefined}>
              {two && AXIS_ROLES.includes(role) && (sensor === 0 ? t('left') : t('right'))}
              {roleWords(role)}
              {turned && t('sign_turned')}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function describe({ layout }: SavedLayout): string {
  const [sensor] = layout.sensors;
  const rotation = sensor.gyr ? t('rotation_in', { unit: sensor.gyr.unit }) : t('no_gyroscope');
  return t('columns_acceleration_in', { column_count: layout.column_count, unit: sensor.acc.unit, rotation });
}

import { phrasesOf } from '../../app/language.ts';
import { commonWords } from '../../../shared/messages/en/view/common.ts';
import { sessionWords } from '../../../shared/messages/en/view/session.ts';
import { useEffect, useState } from 'preact/hooks';
import type { Fault } from '../../../shared/fault.ts';
import type { Session } from '../../../shared/schemas/session.ts';
import { api } from '../../api.ts';
import type { Directory } from '../../app/directory.ts';
import { localToday } from '../../app/format.ts';
import { faultOf } from '../../client.ts';
import { Dialog } from '../../parts/dialog.tsx';
import { FaultBox } from '../../parts/fault-box.tsx';
import { SelectField } from '../../parts/select-field.tsx';
import { TextField } from '../../parts/text-field.tsx';

const t = phrasesOf('session', sessionWords);
const common = phrasesOf('common', commonWords);

interface SessionDialogProps {
  /** The session to change; none makes a new one. */
  session?: Session;
  open: boolean;
  directory: Directory;
  onClose: () => void;
  onSaved: (session: Session) => void;
}

/** Date, title, group and place of a session. */
export function SessionDialog({ session, open, directory, onClose, onSaved }: SessionDialogProps) {
  const [date, setDate] = useState(localToday());
  const [title, setTitle] = useState('');
  const [group, setGroup] = useState('');
  const [where, setWhere] = useState('');
  const [notes, setNotes] = useState('');
  const [fault, setFault] = useState<Fault | null>(null);

  useEffect(() => {
    if (!open) return;
    setDate(session?.session_date ?? localToday());
    setTitle(session?.title ?? '');
    setGroup(session?.group_id ? String(session.group_id) : '');
    setWhere(session?.place ?? '');
    setNotes(session?.notes ?? '');
    setFault(null);
  }, [open, session]);

  async function save(event: Event) {
    event.preventDefault();
    const fields = {
      session_date: date,
      title: title.trim(),
      group_id: group ? Number(group) : null,
      place: where.trim() || null,
      notes,
    };
    try {
      onSaved(session ? await api.changeSession(session.session_id, fields) : await api.addSession(fields));
      onClose();
    } catch (error) {
      setFault(faultOf(error));
    }
  }

  return (
    <Dialog title={session ? t('change_session') : t('new_session')} open={open} onClose={onClose}>
      <form onSubmit={save}>
        {fault && <FaultBox fault={fault} />}
        <div class="field-grid">
          <TextField label={common('date_2')} type="date" value={date} onChange={setDate} required />
          <TextField label={common('title')} value={title} onChange={setTitle} placeholder={t('speed_5_x_20_yd')} />
          <SelectField
            label={common('group_2')}
            value={group}
            options={[
              { value: '', label: common('no_group') },
              ...(directory.groups.value?.items ?? []).map(({ group_id, name }) => ({
                value: String(group_id),
                label: name,
              })),
            ]}
            onChange={setGroup}
          />
          <TextField label={t('place')} value={where} onChange={setWhere} />
        </div>
        <label class="field">
          <span>{common('notes')}</span>
          <textarea rows={3} value={notes} onInput={(event) => setNotes(event.currentTarget.value)} />
        </label>
        <div class="actions">
          <button type="submit" class="primary">
            {t('save_session')}
          </button>
          <button type="button" onClick={onClose}>
            {common('cancel')}
          </button>
        </div>
      </form>
    </Dialog>
  );
}

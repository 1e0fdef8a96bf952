import { phrasesOf } from '../../app/language.ts';
import { commonWords } from '../../../shared/messages/en/view/common.ts';
import { repetitionWords } from '../../../shared/messages/en/view/repetition.ts';
import { useEffect, useState } from 'preact/hooks';
import type { Fault } from '../../../shared/fault.ts';
import type { Repetition } from '../../../shared/schemas/repetition.ts';
import { api } from '../../api.ts';
import { faultOf } from '../../client.ts';
import { Dialog } from '../../parts/dialog.tsx';
import { FaultBox } from '../../parts/fault-box.tsx';
import { type CourseDraft, courseChange, draftOf } from '../../parts/course-draft.ts';
import { CourseFields } from '../../parts/course-fields.tsx';

const t = phrasesOf('repetition', repetitionWords);
const common = phrasesOf('common', commonWords);

interface RepetitionDialogProps {
  repetition: Repetition;
  open: boolean;
  onClose: () => void;
  onSaved: () => Promise<unknown>;
}

/** Course, time and effort of a repetition; saving measures it anew. */
export function RepetitionDialog({ repetition, open, onClose, onSaved }: RepetitionDialogProps) {
  const [draft, setDraft] = useState<CourseDraft>(draftOf(repetition));
  const [notes, setNotes] = useState(repetition.notes);
  const [fault, setFault] = useState<Fault | null>(null);
  const [saving, setSaving] = useState(false);
  useEffect(() => {
    if (!open) return;
    setDraft(draftOf(repetition));
    setNotes(repetition.notes);
    setFault(null);
  }, [open, repetition]);

  async function save(event: Event) {
    event.preventDefault();
    setSaving(true);
    try {
      await api.changeRepetition(repetition.repetition_id, { ...courseChange(draft), notes });
      await onSaved();
      onClose();
    } catch (error) {
      setFault(faultOf(error));
    } finally {
      setSaving(false);
    }
  }

  return (
    <Dialog title={t('course_time_and_effort')} open={open} onClose={onClose}>
      <form onSubmit={save}>
        {fault && <FaultBox fault={fault} />}
        <CourseFields draft={draft} onChange={setDraft} />
        <label class="field">
          <span>{common('notes')}</span>
          <textarea rows={3} value={notes} onInput={(event) => setNotes(event.currentTarget.value)} />
        </label>
        <p class="small quiet">{t('saving_measures_the_repetition_anew')}</p>
        <div class="actions">
          <button type="submit" class="primary" disabled={saving}>
            {saving ? t('measuring') : t('save_and_measure')}
          </button>
          <button type="button" onClick={onClose}>
            {common('cancel')}
          </button>
        </div>
      </form>
    </Dialog>
  );
}

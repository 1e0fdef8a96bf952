import { phrasesOf } from '../../../app/language.ts';
import { commonWords } from '../../../../shared/messages/en/view/common.ts';
import { athletesWords } from '../../../../shared/messages/en/view/athletes.ts';
import { useState } from 'preact/hooks';
import type { AthleteLine } from '../../../../shared/schemas/coach/athlete-record.ts';
import type { Group } from '../../../../shared/schemas/group.ts';
import type { Fault } from '../../../../shared/fault.ts';
import { client, faultOf } from '../../../client.ts';
import { Dialog } from '../../../parts/dialog.tsx';
import { FaultBox } from '../../../parts/fault-box.tsx';
import { TextField } from '../../../parts/text-field.tsx';
import { offerUndo } from '../../../parts/undo.tsx';

const t = phrasesOf('athletes', athletesWords);
const common = phrasesOf('common', commonWords);

interface GroupDialogProps {
  /** Null makes a new one. */
  group: Group | null;
  athletes: readonly Pick<AthleteLine, 'athlete_id' | 'name'>[];
  onClose: () => void;
  onSaved: () => Promise<void>;
}

/** Name and members of a group; members keep the order in which they were ticked, which is the running order. */
export function GroupDialog({ group, athletes, onClose, onSaved }: GroupDialogProps) {
  const [name, setName] = useState(group?.name ?? '');
  const [ids, setIds] = useState<number[]>(group?.athlete_ids ?? []);
  const [fault, setFault] = useState<Fault | null>(null);
  const attempt = async (work: () => Promise<unknown>) => {
    try {
      await work();
      await onSaved();
      onClose();
    } catch (error) {
      setFault(faultOf(error));
    }
  };
  return (
    <Dialog title={group ? t('change_group') : t('new_group')} open onClose={onClose}>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          const body = { name: name.trim(), athlete_ids: ids };
          void attempt(() => (group ? client.patch(`/groups/${group.group_id}`, body) : client.post('/groups', body)));
        }}
      >
        {fault && <FaultBox fault={fault} />}
        <TextField label={common('name')} value={name} onChange={setName} required />
        <fieldset class="tick-list">
          <legend>{t('members_in_running_order')}</legend>
          {athletes.map((athlete) => {
            const place = ids.indexOf(athlete.athlete_id);
            return (
              <label key={athlete.athlete_id} class="switch">
                <input
                  type="checkbox"
                  checked={place >= 0}
                  onChange={() =>
                    setIds(place >= 0 ? ids.filter((id) => id !== athlete.athlete_id) : [...ids, athlete.athlete_id])
                  }
                />
                <span>
                  {athlete.name}
                  {place >= 0 && <span class="quiet">{t('runs', { place: place + 1 })}</span>}
                </span>
              </label>
            );
          })}
        </fieldset>
        <div class="actions">
          <button type="submit" class="primary">
            {common('save')}
          </button>
          {group && (
            <button
              type="button"
              onClick={() =>
                void attempt(async () => {
                  await client.remove(`/groups/${group.group_id}`);
                  offerUndo(t('group_deleted_its_athletes_stay', { name: group.name }), async () => {
                    await client.post(`/groups/${group.group_id}/restore`);
                    await onSaved();
                  });
                })
              }
            >
              {t('delete_group')}
            </button>
          )}
        </div>
      </form>
    </Dialog>
  );
}

import { useState } from 'preact/hooks';
import type { AthleteLine } from '../../../../shared/schemas/coach/athlete-record.ts';
import type { Group } from '../../../../shared/schemas/group.ts';
import type { Fault } from '../../../../shared/fault.ts';
import { client, faultOf } from '../../../client.ts';
import { Dialog } from '../../../parts/dialog.tsx';
import { FaultBox } from '../../../parts/fault-box.tsx';
import { TextField } from '../../../parts/text-field.tsx';
import { offerUndo } from '../../../parts/undo.tsx';

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
    <Dialog title={group ? 'Change group' : 'New group'} open onClose={onClose}>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          const body = { name: name.trim(), athlete_ids: ids };
          void attempt(() => (group ? client.patch(`/groups/${group.group_id}`, body) : client.post('/groups', body)));
        }}
      >
        {fault && <FaultBox fault={fault} />}
        <TextField label="Name" value={name} onChange={setName} required />
        <fieldset class="tick-list">
          <legend>Members, in running order</legend>
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
                  {place >= 0 && <span class="quiet"> runs {place + 1}.</span>}
                </span>
              </label>
            );
          })}
        </fieldset>
        <div class="actions">
          <button type="submit" class="primary">
            Save
          </button>
          {group && (
            <button
              type="button"
              onClick={() =>
                void attempt(async () => {
                  await client.remove(`/groups/${group.group_id}`);
                  offerUndo(`Group "${group.name}" deleted; its athletes stay`, async () => {
                    await client.post(`/groups/${group.group_id}/restore`);
                    await onSaved();
                  });
                })
              }
            >
              Delete group
            </button>
          )}
        </div>
      </form>
    </Dialog>
  );
}

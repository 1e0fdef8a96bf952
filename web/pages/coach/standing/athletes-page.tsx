import '../coach.css';
import { useState } from 'preact/hooks';
import type { Fault } from '../../../../shared/fault.ts';
import type { Athlete } from '../../../../shared/schemas/athlete.ts';
import type { GroupLine, GroupStanding } from '../../../../shared/schemas/coach/standing.ts';
import type { GroupList } from '../../../../shared/schemas/group.ts';
import { api, paths } from '../../../api.ts';
import { count } from '../../../app/describe.ts';
import { formatShortDate } from '../../../app/format.ts';
import { go, type PageProps, setQuery } from '../../../app/router.ts';
import { useResource } from '../../../app/use-resource.ts';
import { faultOf } from '../../../client.ts';
import { DeletedList } from '../../../parts/deleted-list.tsx';
import { Dialog } from '../../../parts/dialog.tsx';
import { EmptyState } from '../../../parts/empty-state.tsx';
import { FaultBox } from '../../../parts/fault-box.tsx';
import { ResourceView } from '../../../parts/resource-view.tsx';
import { SelectField } from '../../../parts/select-field.tsx';
import { TextField } from '../../../parts/text-field.tsx';
import { coachPaths } from '../coach-api.ts';
import { GroupDialog } from '../athletes/group-dialog.tsx';
import { CautionList } from '../parts/caution-list.tsx';
import { GroupNow } from './group-now.tsx';

/** Everyone the coach works with: who changed, who is due, best times; then each with focus, last session and next test. */
export default function AthletesPage({ query }: PageProps) {
  const athletes = useResource<GroupStanding>(coachPaths.standing());
  const groups = useResource<GroupList>(paths.groups);
  const [adding, setAdding] = useState(false);
  const [grouping, setGrouping] = useState<'new' | number | null>(null);
  const group = query.get('group_id') ?? '';
  const chosen = groups.value?.items.find((item) => String(item.group_id) === group);
  return (
    <>
      <div class="page-head">
        <h1>Athletes</h1>
        <div class="actions">
          <button type="button" class="primary" onClick={() => setAdding(true)}>
            New athlete
          </button>
          <button type="button" onClick={() => setGrouping('new')}>
            New group
          </button>
        </div>
      </div>
      {(groups.value?.items.length ?? 0) > 0 && (
        <div class="field-grid">
          <SelectField
            label="Group"
            value={group}
            options={[
              { value: '', label: 'everyone' },
              ...groups.value!.items.map(({ group_id, name }) => ({ value: String(group_id), label: name })),
            ]}
            onChange={(value) => setQuery('group_id', value || null)}
          />
          {chosen && (
            <div class="field field-button">
              <button type="button" onClick={() => setGrouping(chosen.group_id)}>
                Change this group
              </button>
            </div>
          )}
        </div>
      )}
      <ResourceView resource={athletes} name="athletes">
        {({ items }) => {
          const shown = items.filter((line) => !group || line.group_ids.includes(Number(group)));
          return shown.length === 0 ? (
            <NoAthletes filtered={group !== ''} />
          ) : (
            <>
              <GroupNow lines={shown} />
              <h2>Everyone</h2>
              <AthleteLines lines={shown} />
            </>
          );
        }}
      </ResourceView>
      <DeletedList<Athlete>
        what="athletes"
        path={paths.athletes}
        id={({ athlete_id }) => athlete_id}
        name={({ name }) => name}
        onRestored={athletes.reload}
      />
      <p class="quiet small">
        Everything stays on the machine that runs Cinderlane; nothing is sent anywhere. A pseudonym is enough. Minors:
        ask the athlete and a parent first, and keep only what you use.
      </p>
      {athletes.value && <CautionList cautions={athletes.value.cautions} />}
      <NewAthleteDialog open={adding} onClose={() => setAdding(false)} />
      {grouping !== null && (
        <GroupDialog
          group={grouping === 'new' ? null : (chosen ?? null)}
          athletes={athletes.value?.items ?? []}
          onClose={() => setGrouping(null)}
          onSaved={async () => {
            await groups.reload();
            await athletes.reload();
          }}
        />
      )}
    </>
  );
}

function AthleteLines({ lines }: { lines: readonly GroupLine[] }) {
  return (
    <ul class="lines">
      {lines.map((line) => (
        <li key={line.athlete_id}>
          <a class="line athlete-line" href={`#/athletes/${line.athlete_id}`}>
            <span class="line-main">
              <strong>{line.name}</strong>
              <span class="quiet">
                {line.returning
                  ? 'returning from an injury: nothing is compared'
                  : line.focus === null
                    ? 'no focus chosen'
                    : `${line.focus.name}, week ${Math.floor(line.focus.weeks) + 1}`}
              </span>
            </span>
            <span class="line-end">
              {line.last_session ? `last session ${formatShortDate(line.last_session.session_date)}` : 'no session yet'}
              <span class="quiet">
                {line.test_overdue_days > 0
                  ? `sprint test ${count(line.test_overdue_days, 'day')} overdue`
                  : line.next_test_date
                    ? `sprint test ${formatShortDate(line.next_test_date)}`
                    : ''}
              </span>
            </span>
          </a>
        </li>
      ))}
    </ul>
  );
}

function NewAthleteDialog({ open, onClose }: { open: boolean; onClose: () => void }) {
  const [name, setName] = useState('');
  const [fault, setFault] = useState<Fault | null>(null);
  return (
    <Dialog title="New athlete" open={open} onClose={onClose}>
      <form
        onSubmit={async (event) => {
          event.preventDefault();
          try {
            const athlete = await api.addAthlete(name.trim());
            go(`/athletes/${athlete.athlete_id}/person`);
          } catch (error) {
            setFault(faultOf(error));
          }
        }}
      >
        {fault && <FaultBox fault={fault} />}
        <TextField
          label="Name or pseudonym"
          value={name}
          onChange={setName}
          required
          help="Only the name is needed. Mass, stature and the rest can follow, or stay out."
        />
        <p class="actions">
          <button type="submit" class="primary">
            Add
          </button>
        </p>
      </form>
    </Dialog>
  );
}

function NoAthletes({ filtered }: { filtered: boolean }) {
  return (
    <EmptyState title={filtered ? 'Nobody is in this group yet' : 'No athletes yet'}>
      <p>
        {filtered
          ? 'Add athletes to the group with "Change this group".'
          : 'Add the first by name or pseudonym. From the first repetition on, each is compared with nobody but themselves.'}
      </p>
    </EmptyState>
  );
}

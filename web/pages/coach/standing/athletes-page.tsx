import { phrasesOf } from '../../../app/language.ts';
import { athletesWords } from '../../../../shared/messages/en/view/athletes.ts';
import { commonWords } from '../../../../shared/messages/en/view/common.ts';
import '../coach.css';
import { useState } from 'preact/hooks';
import type { Fault } from '../../../../shared/fault.ts';
import type { Athlete } from '../../../../shared/schemas/athlete.ts';
import type { GroupLine, GroupStanding } from '../../../../shared/schemas/coach/standing.ts';
import type { GroupList } from '../../../../shared/schemas/group.ts';
import { api, paths } from '../../../api.ts';
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

const common = phrasesOf('common', commonWords);
const t = phrasesOf('athletes', athletesWords);

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
        <h1>{common('page_Athletes')}</h1>
        <div class="actions">
          <button type="button" class="primary" onClick={() => setAdding(true)}>
            {t('new_athlete')}
          </button>
          <button type="button" onClick={() => setGrouping('new')}>
            {t('new_group')}
          </button>
        </div>
      </div>
      {(groups.value?.items.length ?? 0) > 0 && (
        <div class="field-grid">
          <SelectField
            label={common('group_2')}
            value={group}
            options={[
              { value: '', label: t('everyone') },
              ...groups.value!.items.map(({ group_id, name }) => ({ value: String(group_id), label: name })),
            ]}
            onChange={(value) => setQuery('group_id', value || null)}
          />
          {chosen && (
            <div class="field field-button">
              <button type="button" onClick={() => setGrouping(chosen.group_id)}>
                {t('change_this_group')}
              </button>
            </div>
          )}
        </div>
      )}
      <ResourceView resource={athletes} name={common('athletes')}>
        {({ items }) => {
          const shown = items.filter((line) => !group || line.group_ids.includes(Number(group)));
          return shown.length === 0 ? (
            <NoAthletes filtered={group !== ''} />
          ) : (
            <>
              <GroupNow lines={shown} />
              <h2>{t('everyone_2')}</h2>
              <AthleteLines lines={shown} />
            </>
          );
        }}
      </ResourceView>
      <DeletedList<Athlete>
        what={common('athletes')}
        path={paths.athletes}
        id={({ athlete_id }) => athlete_id}
        name={({ name }) => name}
        onRestored={athletes.reload}
      />
      <p class="quiet small">{t('everything_stays_on_the_machine')}</p>
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
                  ? t('returning_from_an_injury_nothing')
                  : line.focus === null
                    ? common('no_focus_chosen')
                    : t('week', { name: line.focus.name, weeks: Math.floor(line.focus.weeks) + 1 })}
              </span>
            </span>
            <span class="line-end">
              {line.last_session
                ? t('last_session', { session_date: formatShortDate(line.last_session.session_date) })
                : t('no_session_yet')}
              <span class="quiet">
                {line.test_overdue_days > 0
                  ? t('sprint_test_overdue', { days: common('n_days', { n: line.test_overdue_days }) })
                  : line.next_test_date
                    ? t('sprint_test', { next_test_date: formatShortDate(line.next_test_date) })
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
    <Dialog title={t('new_athlete')} open={open} onClose={onClose}>
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
          label={common('name_or_pseudonym')}
          value={name}
          onChange={setName}
          required
          help={t('only_the_name_is_needed')}
        />
        <p class="actions">
          <button type="submit" class="primary">
            {common('add')}
          </button>
        </p>
      </form>
    </Dialog>
  );
}

function NoAthletes({ filtered }: { filtered: boolean }) {
  return (
    <EmptyState title={filtered ? t('nobody_is_in_this_group') : common('no_athletes_yet')}>
      <p>{filtered ? t('add_athletes_to_the_group') : t('add_the_first_by_name')}</p>
    </EmptyState>
  );
}

import '../coach.css';
import { useState } from 'preact/hooks';
import type { Athlete, AthleteChange } from '../../../../shared/schemas/athlete.ts';
import type { AthleteRecord } from '../../../../shared/schemas/coach/athlete-record.ts';
import type { Fault } from '../../../../shared/fault.ts';
import type { PageProps } from '../../../app/router.ts';
import { useResource } from '../../../app/use-resource.ts';
import { client, faultOf } from '../../../client.ts';
import { Cautions } from '../../../parts/cautions.tsx';
import { FaultBox } from '../../../parts/fault-box.tsx';
import { ResourceView } from '../../../parts/resource-view.tsx';
import { SelectField } from '../../../parts/select-field.tsx';
import { TextField } from '../../../parts/text-field.tsx';
import { coachPaths } from '../coach-api.ts';
import { AthleteHead } from './athlete-head.tsx';
import { MeasuresSection } from './measures-section.tsx';
import { ReturningSection } from './returning-section.tsx';
import { SensorsSection } from './sensors-section.tsx';
import { StoredSection } from './stored-section.tsx';

/** Who the athlete is: what is kept, where, and how to take it along or away. */
export default function PersonPage({ params }: PageProps) {
  const record = useResource<AthleteRecord>(coachPaths.athlete(params.athlete_id));
  return (
    <ResourceView resource={record} name="the athlete">
      {(value) => (
        <>
          <AthleteHead athlete_id={params.athlete_id} name={value.athlete.name} />
          <PersonForm athlete={value.athlete} age_years={value.age_years} onSaved={record.reload} />
          <ReturningSection record={value} onChanged={record.reload} />
          <MeasuresSection record={value} onChanged={record.reload} />
          <SensorsSection record={value} onChanged={record.reload} />
          <StoredSection record={value} />
          <Cautions />
        </>
      )}
    </ResourceView>
  );
}

interface PersonFormProps {
  athlete: Athlete;
  age_years: number | null;
  onSaved: () => Promise<void>;
}

function PersonForm({ athlete, age_years, onSaved }: PersonFormProps) {
  const [draft, setDraft] = useState({
    name: athlete.name,
    sex: athlete.sex ?? '',
    birth_date: athlete.birth_date ?? '',
    footwear: athlete.footwear ?? '',
    notes: athlete.notes,
  });
  const [fault, setFault] = useState<Fault | null>(null);
  const [state, setState] = useState<'as stored' | 'changed' | 'saving'>('as stored');
  const change = (part: Partial<typeof draft>) => {
    setDraft((old) => ({ ...old, ...part }));
    setState('changed');
  };
  return (
    <form
      class="sheet"
      onSubmit={async (event) => {
        event.preventDefault();
        setState('saving');
        setFault(null);
        try {
          const body: AthleteChange = {
            name: draft.name.trim(),
            sex: draft.sex === '' ? null : (draft.sex as Athlete['sex']),
            birth_date: draft.birth_date.trim() || null,
            footwear: draft.footwear.trim() || null,
            notes: draft.notes,
          };
          await client.patch(`/athletes/${athlete.athlete_id}`, body);
          await onSaved();
          setState('as stored');
        } catch (error) {
          setFault(faultOf(error));
          setState('changed');
        }
      }}
    >
      <h2>Person</h2>
      {fault && <FaultBox fault={fault} />}
      <div class="field-grid">
        <TextField label="Name or pseudonym" value={draft.name} onChange={(name) => change({ name })} required />
        <TextField
          label="Year of birth, or birth date (optional)"
          placeholder="2012"
          value={draft.birth_date}
          onChange={(birth_date) => change({ birth_date })}
          help={
            age_years === null
              ? 'The year is enough. It tells whether the athlete still grows: old repetitions then expire sooner.'
              : `${Math.floor(age_years)} years${age_years >= 9 && age_years < 18 ? ': growing, repetitions older than 60 days do not count as normal' : ''}`
          }
        />
        <SelectField
          label="Sex (optional)"
          value={draft.sex}
          options={[
            { value: '', label: 'not kept' },
            { value: 'female', label: 'female' },
            { value: 'male', label: 'male' },
            { value: 'other', label: 'other' },
          ]}
          onChange={(sex) => change({ sex })}
        />
        <TextField
          label="Usual footwear"
          value={draft.footwear}
          onChange={(footwear) => change({ footwear })}
          placeholder="spikes"
        />
      </div>
      <label class="field">
        <span>Notes</span>
        <textarea rows={3} value={draft.notes} onInput={(event) => change({ notes: event.currentTarget.value })} />
      </label>
      <p class="actions">
        <button type="submit" class={state === 'changed' ? 'primary' : undefined} disabled={state !== 'changed'}>
          {state === 'as stored' ? 'Saved' : state === 'saving' ? 'Saving ...' : 'Save'}
        </button>
      </p>
    </form>
  );
}

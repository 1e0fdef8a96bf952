import { phrasesOf } from '../../../app/language.ts';
import { commonWords } from '../../../../shared/messages/en/view/common.ts';
import { athletesWords } from '../../../../shared/messages/en/view/athletes.ts';
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

const t = phrasesOf('athletes', athletesWords);
const common = phrasesOf('common', commonWords);

/** Who the athlete is: what is kept, where, and how to take it along or away. */
export default function PersonPage({ params }: PageProps) {
  const record = useResource<AthleteRecord>(coachPaths.athlete(params.athlete_id));
  return (
    <ResourceView resource={record} name={t('the_athlete')}>
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
      <h2>{t('person')}</h2>
      {fault && <FaultBox fault={fault} />}
      <div class="field-grid">
        <TextField
          label={common('name_or_pseudonym')}
          value={draft.name}
          onChange={(name) => change({ name })}
          required
        />
        <TextField
          label={t('year_of_birth_or_birth')}
          placeholder="2012"
          value={draft.birth_date}
          onChange={(birth_date) => change({ birth_date })}
          help={
            age_years === null
              ? t('the_year_is_enough_it')
              : t('years', {
                  age_years: Math.floor(age_years),
                  growing: age_years >= 9 && age_years < 18 ? t('growing_repetitions_older_than_60') : '',
                })
          }
        />
        <SelectField
          label={t('sex_optional')}
          value={draft.sex}
          options={[
            { value: '', label: t('not_kept') },
            { value: 'female', label: t('female') },
            { value: 'male', label: t('male') },
            { value: 'other', label: common('timed_other') },
          ]}
          onChange={(sex) => change({ sex })}
        />
        <TextField
          label={t('usual_footwear')}
          value={draft.footwear}
          onChange={(footwear) => change({ footwear })}
          placeholder={t('spikes')}
        />
      </div>
      <label class="field">
        <span>{common('notes')}</span>
        <textarea rows={3} value={draft.notes} onInput={(event) => change({ notes: event.currentTarget.value })} />
      </label>
      <p class="actions">
        <button type="submit" class={state === 'changed' ? 'primary' : undefined} disabled={state !== 'changed'}>
          {state === 'as stored' ? t('saved') : state === 'saving' ? t('saving') : common('save')}
        </button>
      </p>
    </form>
  );
}

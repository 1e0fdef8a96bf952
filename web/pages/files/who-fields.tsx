import { phrasesOf } from '../../app/language.ts';
import { filesWords } from '../../../shared/messages/en/view/files.ts';
import { commonWords } from '../../../shared/messages/en/view/common.ts';
import { mountingChoices } from '../../app/mounting-words.ts';
import { useState } from 'preact/hooks';
import type { Fault } from '../../../shared/fault.ts';
import type { Session } from '../../../shared/schemas/session.ts';
import type { Mounting } from '../../../shared/words.ts';
import { api } from '../../api.ts';
import { sessionOption } from '../../app/describe.ts';
import type { Directory } from '../../app/directory.ts';
import { faultOf } from '../../client.ts';
import { Choice } from '../../parts/choice.tsx';
import { FaultBox } from '../../parts/fault-box.tsx';
import { SelectField } from '../../parts/select-field.tsx';
import { TextField } from '../../parts/text-field.tsx';

const common = phrasesOf('common', commonWords);
const t = phrasesOf('files', filesWords);

/** Whose recording it is, and how the sensors sat. */
export interface WhoDraft {
  athlete_id: string;
  /** Empty: today's session is made. */
  session_id: string;
  mounting: Mounting;
}

interface WhoFieldsProps {
  who: WhoDraft;
  onChange: (who: WhoDraft) => void;
  directory: Directory;
  sessions: Session[];
}

/** Athlete, session and mounting. */
export function WhoFields({ who, onChange, directory, sessions }: WhoFieldsProps) {
  const athletes = directory.athletes.value?.items ?? [];
  return (
    <>
      <div class="who-grid">
        <SelectField
          label={common('athlete_3')}
          value={who.athlete_id}
          options={[
            { value: '', label: common('choose') },
            ...athletes.map(({ athlete_id, name }) => ({ value: String(athlete_id), label: name })),
          ]}
          onChange={(athlete_id) => onChange({ ...who, athlete_id })}
        />
        <SelectField
          label={common('page_Session')}
          value={who.session_id}
          options={[{ value: '', label: t('a_new_one_today') }, ...sessions.map(sessionOption)]}
          onChange={(session_id) => onChange({ ...who, session_id })}
        />
        <Choice
          legend={t('sensors_on_the')}
          value={who.mounting}
          options={mountingChoices()}
          onChange={(mounting) => onChange({ ...who, mounting })}
        />
      </div>
      <NewAthlete
        first={directory.athletes.value !== null && athletes.length === 0}
        onAdded={async (athlete_id) => {
          await directory.athletes.reload();
          onChange({ ...who, athlete_id: String(athlete_id) });
        }}
      />
    </>
  );
}

interface NewAthleteProps {
  /** True when there is no athlete at all yet. */
  first: boolean;
  onAdded: (athlete_id: number) => Promise<void>;
}

/** An athlete who is not in the list yet: a name is enough. */
function NewAthlete({ first, onAdded }: NewAthleteProps) {
  const [name, setName] = useState('');
  const [fault, setFault] = useState<Fault | null>(null);
  async function add() {
    try {
      const athlete = await api.addAthlete(name.trim());
      await onAdded(athlete.athlete_id);
      setName('');
      setFault(null);
    } catch (error) {
      setFault(faultOf(error));
    }
  }
  return (
    <details class="more-fields" open={first}>
      <summary>{t('athlete_not_in_the_list')}</summary>
      {fault && <FaultBox fault={fault} />}
      <div class="field-grid">
        <TextField label={common('name_or_pseudonym')} value={name} onChange={setName} />
        <div class="actions">
          <button type="button" disabled={name.trim() === ''} onClick={() => void add()}>
            {t('add_athlete')}
          </button>
        </div>
      </div>
    </details>
  );
}

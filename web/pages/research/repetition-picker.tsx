import { phrasesOf } from '../../app/language.ts';
import { commonWords } from '../../../shared/messages/en/view/common.ts';
import { researchWords } from '../../../shared/messages/en/view/research.ts';
import { useState } from 'preact/hooks';
import type { SessionWithRepetitions } from '../../../shared/schemas/session.ts';
import { paths } from '../../api.ts';
import { sessionOption } from '../../app/describe.ts';
import { useDirectory } from '../../app/directory.ts';
import { useResource } from '../../app/use-resource.ts';
import { useSessionsToChoose } from '../../app/use-sessions.ts';
import { SelectField } from '../../parts/select-field.tsx';

const t = phrasesOf('research', researchWords);
const common = phrasesOf('common', commonWords);

interface RepetitionPickerProps {
  /** What is picked for. */
  name: string;
  /** Identifier of the repetition, as a form has it; empty for none. */
  value: string;
  onChange: (repetition_id: string) => void;
}

/** Picks a stored repetition: first its session, then athlete and number. */
export function RepetitionPicker({ name, value, onChange }: RepetitionPickerProps) {
  const known = useResource<{ session_id: number }>(value ? paths.repetition(value) : null);
  const [chosen, setChosen] = useState('');
  const session_id = chosen || String(known.value?.session_id ?? '');
  const { sessions } = useSessionsToChoose(session_id);
  const session = useResource<SessionWithRepetitions>(session_id ? paths.session(session_id) : null);
  const directory = useDirectory();
  const repetitions = session.value?.repetitions.filter(({ state }) => state !== 'planned') ?? [];
  const listed = repetitions.some((one) => String(one.repetition_id) === value);
  return (
    <>
      <SelectField
        label={t('session_of', { name })}
        value={session_id}
        options={[{ value: '', label: common('choose') }, ...sessions.map(sessionOption)]}
        onChange={(next) => {
          setChosen(next);
          onChange('');
        }}
      />
      <SelectField
        label={t('repetition_of', { name })}
        value={listed ? value : ''}
        options={[
          { value: '', label: common('choose') },
          ...repetitions.map((one) => ({
            value: String(one.repetition_id),
            label: t('repetition', { name: directory.athleteName(one.athlete_id), order_number: one.order_number }),
          })),
        ]}
        onChange={onChange}
      />
    </>
  );
}

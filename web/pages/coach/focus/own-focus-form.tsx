import { phrasesOf } from '../../../app/language.ts';
import { commonWords } from '../../../../shared/messages/en/view/common.ts';
import { courseWords } from '../../../../shared/messages/en/view/course.ts';
import { useState } from 'preact/hooks';
import type { CoachQuantity } from '../../../../shared/coach-quantities.ts';
import { REPETITION_FIELDS, SUMMARY_QUANTITIES } from '../../../../shared/fields.ts';
import { AIMS, type Aim } from '../../../../shared/coach-words.ts';
import type { Focus } from '../../../../shared/schemas/coach/focus.ts';
import { FaultBox } from '../../../parts/fault-box.tsx';
import { SelectField } from '../../../parts/select-field.tsx';
import { TextField } from '../../../parts/text-field.tsx';
import { coachApi } from '../coach-api.ts';
import { NumberField } from '../parts/number-field.tsx';
import { displayQuantity } from '../quantity-text.ts';
import { useAttempt } from '../use-attempt.ts';

const t = phrasesOf('course', courseWords);
const common = phrasesOf('common', commonWords);

const QUANTITIES: string[] = [...new Set([...SUMMARY_QUANTITIES, ...Object.keys(REPETITION_FIELDS)])];

/** A focus in the coach's own words, tied to a number, a direction and, where wanted, a value to reach. */
export function OwnFocusForm({ focus, onSaved }: { focus?: Focus; onSaved: () => Promise<unknown> }) {
  const first = focus?.quantities[0];
  const [name, setName] = useState(focus?.name ?? '');
  const [cue, setCue] = useState(focus?.cue ?? '');
  const [meaning, setMeaning] = useState(focus?.meaning ?? '');
  const [quantity, setQuantity] = useState<string>(first?.quantity ?? '');
  const [aim, setAim] = useState<Aim>(first?.aim ?? 'no fixed direction');
  const [target, setTarget] = useState<number | null>(first?.target ?? null);
  const { fault, attempt } = useAttempt(onSaved);
  const shown = quantity === '' ? null : displayQuantity(quantity as CoachQuantity);
  const save = () =>
    attempt(async () => {
      const quantities = quantity === '' ? [] : [{ quantity, aim, mounting: first?.mounting ?? null, target }];
      const body = { name: name.trim(), cue: cue.trim(), meaning: meaning.trim(), quantities };
      if (focus?.coach_focus_id) await coachApi.changeCoachFocus(focus.coach_focus_id, body);
      else {
        await coachApi.addCoachFocus(body);
        setName('');
        setCue('');
        setMeaning('');
      }
    });
  return (
    <form
      class="sheet"
      onSubmit={(event) => {
        event.preventDefault();
        void save();
      }}
    >
      <h2>{focus ? t('change_it') : t('a_focus_of_your_own')}</h2>
      {fault && <FaultBox fault={fault} />}
      <div class="field-grid">
        <TextField label={common('name')} value={name} onChange={setName} required />
        <TextField label={common('cue')} value={cue} onChange={setCue} help={t('your_own_words_to_the')} />
        <TextField label={t('what_to_look_for')} value={meaning} onChange={setMeaning} />
        <SelectField
          label={t('number')}
          value={quantity}
          options={[
            { value: '', label: t('none_only_your_eye_sees') },
            ...QUANTITIES.map((value) => ({ value, label: displayQuantity(value).label })),
          ]}
          onChange={setQuantity}
        />
        {shown && (
          <>
            <SelectField
              label={t('wanted_2')}
              value={aim}
              options={AIMS.map((value) => ({ value, label: t(`aim_${value}`) }))}
              onChange={setAim}
            />
            <NumberField
              label={t('aim_2', { unit: shown.unit ? `, ${shown.unit}` : '' })}
              value={target === null ? null : target * shown.factor}
              onChange={(value) => setTarget(value / shown.factor)}
              onEmpty={() => setTarget(null)}
              help={t('empty_no_value_only_the')}
            />
          </>
        )}
      </div>
      <button type="submit" disabled={name.trim() === ''}>
        {focus ? common('save') : t('add_focus')}
      </button>
    </form>
  );
}

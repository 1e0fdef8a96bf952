import { phrasesOf } from '../../../app/language.ts';
import { commonWords } from '../../../../shared/messages/en/view/common.ts';
import { athletesWords } from '../../../../shared/messages/en/view/athletes.ts';
import { addDays } from '../../../../shared/dates.ts';
import { useState } from 'preact/hooks';
import type { AthleteFocus, AthleteRecord } from '../../../../shared/schemas/coach/athlete-record.ts';
import type { CoachSettings } from '../../../../shared/schemas/coach/coach-settings.ts';
import type { Focus } from '../../../../shared/schemas/coach/focus.ts';
import { formatShortDate, localToday } from '../../../app/format.ts';
import { useResource } from '../../../app/use-resource.ts';
import { Dialog } from '../../../parts/dialog.tsx';
import { FaultBox } from '../../../parts/fault-box.tsx';
import { SelectField } from '../../../parts/select-field.tsx';
import { TextField } from '../../../parts/text-field.tsx';
import { offerUndo } from '../../../parts/undo.tsx';
import { coachApi, coachPaths } from '../coach-api.ts';
import { useAttempt } from '../use-attempt.ts';

const t = phrasesOf('athletes', athletesWords);
const common = phrasesOf('common', commonWords);

interface FocusSectionProps {
  record: AthleteRecord;
  onChanged: () => Promise<void>;
}

/** What is being worked on, since when, and what was worked on before. */
export function FocusSection({ record, onChanged }: FocusSectionProps) {
  const { athlete, focuses } = record;
  const today = localToday();
  const settings = useResource<{ settings: CoachSettings }>(coachPaths.settings);
  const limits = settings.value?.settings.plan_limits;
  const [adding, setAdding] = useState(false);
  const { fault, attempt } = useAttempt(onChanged);
  const current = focuses.filter((focus) => focus.to_date === null || focus.to_date >= today);
  const past = focuses.filter((focus) => !current.includes(focus));
  const finish = (focus: AthleteFocus) =>
    attempt(async () => {
      await coachApi.changeFocus(focus.athlete_focus_id, { to_date: localYesterday() });
      offerUndo(t('finished', { name: focus.name }), async () => {
        await coachApi.changeFocus(focus.athlete_focus_id, { to_date: null });
        await onChanged();
      });
    });
  const remove = (focus: AthleteFocus) =>
    attempt(async () => {
      await coachApi.deleteFocus(focus.athlete_focus_id);
      offerUndo(t('deleted', { name: focus.name }), async () => {
        await coachApi.restoreFocus(focus.athlete_focus_id);
        await onChanged();
      });
    });
  return (
    <section>
      <h2>{t('works_on')}</h2>
      {fault && <FaultBox fault={fault} />}
      {current.length === 0 && <p>{t('no_focus_yet_for_it', { name: athlete.name })}</p>}
      {current.map((focus) => (
        <article class="sheet focus-now" key={focus.athlete_focus_id}>
          <h3>
            <a href={`#/athletes/${athlete.athlete_id}/focuses/${focus.focus}`}>{focus.name}</a>
          </h3>
          <p>
            {t('since_week', { from_date: formatShortDate(focus.from_date), weeks: Math.floor(focus.weeks) + 1 })}
            {limits?.focus_weeks_min && limits.focus_weeks_max
              ? t('of_to', { focus_weeks_min: limits.focus_weeks_min, focus_weeks_max: limits.focus_weeks_max })
              : ''}
            .{limits?.focus_weeks_max && focus.weeks > limits.focus_weeks_max ? t('time_to_decide_keep_it') : ''}
            {focus.cue && t('cue', { cue: focus.cue })}
            {focus.note && <span class="notes"> {focus.note}</span>}
          </p>
          <div class="actions">
            <a class="button" href={`#/athletes/${athlete.athlete_id}/focuses/${focus.focus}`}>
              {t('how_it_goes')}
            </a>
            <button type="button" onClick={() => void finish(focus)}>
              {t('finish')}
            </button>
            <button type="button" class="plain" onClick={() => void remove(focus)}>
              {common('delete')}
              <span class="visually-hidden"> {focus.name}</span>
            </button>
          </div>
        </article>
      ))}
      <p class="actions">
        <button type="button" class={current.length === 0 ? 'primary' : undefined} onClick={() => setAdding(true)}>
          {t('choose_a_focus')}
        </button>
      </p>
      {past.length > 0 && (
        <details class="more">
          <summary>{t('worked_on_before')}</summary>
          <ul>
            {past.map((focus) => (
              <li key={focus.athlete_focus_id}>
                <a href={`#/athletes/${athlete.athlete_id}/focuses/${focus.focus}`}>{focus.name}</a>
                {t('to', {
                  from_date: formatShortDate(focus.from_date),
                  to_date: formatShortDate(focus.to_date),
                  weeks: Math.max(1, Math.round(focus.weeks)),
                })}
              </li>
            ))}
          </ul>
        </details>
      )}
      <ChooseDialog
        open={adding}
        onClose={() => setAdding(false)}
        onChosen={(focus, from_date, note, cue) =>
          attempt(async () => {
            await coachApi.addFocus(athlete.athlete_id, { focus, from_date, note, cue });
            setAdding(false);
          })
        }
      />
    </section>
  );
}

function localYesterday(): string {
  return addDays(localToday(), -1);
}

interface ChooseDialogProps {
  open: boolean;
  onClose: () => void;
  onChosen: (focus: string, from_date: string, note: string, cue: string) => Promise<void>;
}

function ChooseDialog({ open, onClose, onChosen }: ChooseDialogProps) {
  const focuses = useResource<{ items: Focus[] }>(open ? coachPaths.focuses : null);
  const [chosen, setChosen] = useState('contact_time');
  const [from, setFrom] = useState(localToday());
  const [note, setNote] = useState('');
  const [cue, setCue] = useState('');
  const focus = focuses.value?.items.find((item) => item.key === chosen);
  return (
    <Dialog title={t('choose_a_focus')} open={open} onClose={onClose}>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          void onChosen(chosen, from, note, cue);
        }}
      >
        <SelectField
          label={t('focus')}
          value={chosen}
          options={(focuses.value?.items ?? []).map((item) => ({ value: item.key, label: item.name }))}
          onChange={setChosen}
        />
        {focus && <p>{focus.meaning}</p>}
        {focus?.sensor_cannot_see && (
          <p class="quiet small">{t('the_sensor_cannot_see', { sensor_cannot_see: focus.sensor_cannot_see })}</p>
        )}
        <TextField label={common('from')} type="date" value={from} onChange={setFrom} required />
        <TextField
          label={common('cue')}
          value={cue}
          onChange={setCue}
          placeholder={focus?.cue || t('your_own_words')}
        />
        <TextField label={common('note')} value={note} onChange={setNote} placeholder={t('what_you_agreed_on')} />
        <p class="actions">
          <button type="submit" class="primary">
            {t('work_on_this')}
          </button>
        </p>
      </form>
    </Dialog>
  );
}

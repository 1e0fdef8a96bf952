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
      offerUndo(`"${focus.name}" finished`, async () => {
        await coachApi.changeFocus(focus.athlete_focus_id, { to_date: null });
        await onChanged();
      });
    });
  const remove = (focus: AthleteFocus) =>
    attempt(async () => {
      await coachApi.deleteFocus(focus.athlete_focus_id);
      offerUndo(`"${focus.name}" deleted`, async () => {
        await coachApi.restoreFocus(focus.athlete_focus_id);
        await onChanged();
      });
    });
  return (
    <section>
      <h2>Works on</h2>
      {fault && <FaultBox fault={fault} />}
      {current.length === 0 && <p>No focus yet. For {athlete.name} it decides which number the field screen shows.</p>}
      {current.map((focus) => (
        <article class="sheet focus-now" key={focus.athlete_focus_id}>
          <h3>
            <a href={`#/athletes/${athlete.athlete_id}/focuses/${focus.focus}`}>{focus.name}</a>
          </h3>
          <p>
            Since {formatShortDate(focus.from_date)}, week {Math.floor(focus.weeks) + 1}
            {limits?.focus_weeks_min && limits.focus_weeks_max
              ? ` of ${limits.focus_weeks_min} to ${limits.focus_weeks_max}`
              : ''}
            .
            {limits?.focus_weeks_max && focus.weeks > limits.focus_weeks_max
              ? ' Time to decide: keep it or move on.'
              : ''}
            {focus.cue && ` Cue: “${focus.cue}”.`}
            {focus.note && <span class="notes"> {focus.note}</span>}
          </p>
          <div class="actions">
            <a class="button" href={`#/athletes/${athlete.athlete_id}/focuses/${focus.focus}`}>
              How it goes
            </a>
            <button type="button" onClick={() => void finish(focus)}>
              Finish
            </button>
            <button type="button" class="plain" onClick={() => void remove(focus)}>
              Delete<span class="visually-hidden"> {focus.name}</span>
            </button>
          </div>
        </article>
      ))}
      <p class="actions">
        <button type="button" class={current.length === 0 ? 'primary' : undefined} onClick={() => setAdding(true)}>
          Choose a focus
        </button>
      </p>
      {past.length > 0 && (
        <details class="more">
          <summary>Worked on before</summary>
          <ul>
            {past.map((focus) => (
              <li key={focus.athlete_focus_id}>
                <a href={`#/athletes/${athlete.athlete_id}/focuses/${focus.focus}`}>{focus.name}</a>,{' '}
                {formatShortDate(focus.from_date)} to {formatShortDate(focus.to_date)} (
                {Math.max(1, Math.round(focus.weeks))} weeks)
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
    <Dialog title="Choose a focus" open={open} onClose={onClose}>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          void onChosen(chosen, from, note, cue);
        }}
      >
        <SelectField
          label="Focus"
          value={chosen}
          options={(focuses.value?.items ?? []).map((item) => ({ value: item.key, label: item.name }))}
          onChange={setChosen}
        />
        {focus && <p>{focus.meaning}</p>}
        {focus?.sensor_cannot_see && <p class="quiet small">The sensor cannot see: {focus.sensor_cannot_see}</p>}
        <TextField label="From" type="date" value={from} onChange={setFrom} required />
        <TextField label="Cue" value={cue} onChange={setCue} placeholder={focus?.cue || 'your own words'} />
        <TextField label="Note" value={note} onChange={setNote} placeholder="what you agreed on" />
        <p class="actions">
          <button type="submit" class="primary">
            Work on this
          </button>
        </p>
      </form>
    </Dialog>
  );
}

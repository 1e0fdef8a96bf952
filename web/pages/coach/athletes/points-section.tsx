import { useState } from 'preact/hooks';
import type { AthletePoint, AthleteRecord } from '../../../../shared/schemas/coach/athlete-record.ts';
import type { CoachSettings } from '../../../../shared/schemas/coach/coach-settings.ts';
import type { TechniquePoint } from '../../../../shared/schemas/coach/technique-point.ts';
import { formatShortDate } from '../../../app/format.ts';
import { useResource } from '../../../app/use-resource.ts';
import { Dialog } from '../../../parts/dialog.tsx';
import { FaultBox } from '../../../parts/fault-box.tsx';
import { SelectField } from '../../../parts/select-field.tsx';
import { TextField } from '../../../parts/text-field.tsx';
import { offerUndo } from '../../../parts/undo.tsx';
import { coachApi, coachPaths, localToday } from '../coach-api.ts';
import { useAttempt } from '../use-attempt.ts';

interface PointsSectionProps {
  record: AthleteRecord;
  onChanged: () => Promise<void>;
}

/** The one or two technique points being worked on, since when, and what was worked on before. */
export function PointsSection({ record, onChanged }: PointsSectionProps) {
  const { athlete, points } = record;
  const today = localToday();
  const settings = useResource<{ settings: CoachSettings }>(coachPaths.settings);
  const limits = settings.value?.settings.plan_limits;
  const [adding, setAdding] = useState(false);
  const { fault, attempt } = useAttempt(onChanged);
  const current = points.filter((point) => point.to_date === null || point.to_date >= today);
  const past = points.filter((point) => !current.includes(point));
  const finish = (point: AthletePoint) =>
    attempt(async () => {
      await coachApi.changePoint(point.athlete_point_id, { to_date: localYesterday() });
      offerUndo(`"${point.name}" finished`, async () => {
        await coachApi.changePoint(point.athlete_point_id, { to_date: null });
        await onChanged();
      });
    });
  const remove = (point: AthletePoint) =>
    attempt(async () => {
      await coachApi.deletePoint(point.athlete_point_id);
      offerUndo(`"${point.name}" deleted`, async () => {
        await coachApi.restorePoint(point.athlete_point_id);
        await onChanged();
      });
    });
  return (
    <section>
      <h2>Works on</h2>
      {fault && <FaultBox fault={fault} />}
      {current.length === 0 && (
        <p>
          No technique point yet. Pick one: it decides which number the field screen shows for {athlete.name}. Common
          practice is one at a time, kept for four to eight weeks.
        </p>
      )}
      {current.length > 2 && (
        <p>
          <strong>{current.length} points at once: common practice is one, at most two.</strong>
        </p>
      )}
      {current.map((point) => (
        <article class="sheet point-now" key={point.athlete_point_id}>
          <h3>
            <a href={`#/athletes/${athlete.athlete_id}/points/${point.point}`}>{point.name}</a>
          </h3>
          <p>
            Since {formatShortDate(point.from_date)}, week {Math.floor(point.weeks) + 1}
            {limits?.technique_point_weeks_min && limits.technique_point_weeks_max
              ? ` of ${limits.technique_point_weeks_min} to ${limits.technique_point_weeks_max}`
              : ''}
            .
            {limits?.technique_point_weeks_max && point.weeks > limits.technique_point_weeks_max
              ? ' Time to decide: keep it or move on.'
              : ''}
            {point.note && <span class="notes"> {point.note}</span>}
          </p>
          <div class="actions">
            <a class="button" href={`#/athletes/${athlete.athlete_id}/points/${point.point}`}>
              How it goes
            </a>
            <button type="button" onClick={() => void finish(point)}>
              Finish
            </button>
            <button type="button" class="plain" onClick={() => void remove(point)}>
              Delete<span class="visually-hidden"> {point.name}</span>
            </button>
          </div>
        </article>
      ))}
      <p class="actions">
        <button type="button" class={current.length === 0 ? 'primary' : undefined} onClick={() => setAdding(true)}>
          Choose a technique point
        </button>
      </p>
      {past.length > 0 && (
        <details class="more">
          <summary>Worked on before</summary>
          <ul>
            {past.map((point) => (
              <li key={point.athlete_point_id}>
                <a href={`#/athletes/${athlete.athlete_id}/points/${point.point}`}>{point.name}</a>,{' '}
                {formatShortDate(point.from_date)} to {formatShortDate(point.to_date)} (
                {Math.max(1, Math.round(point.weeks))} weeks)
              </li>
            ))}
          </ul>
        </details>
      )}
      <ChooseDialog
        open={adding}
        onClose={() => setAdding(false)}
        onChosen={(point, from_date, note) =>
          attempt(async () => {
            await coachApi.addPoint(athlete.athlete_id, { point, from_date, note });
            setAdding(false);
          })
        }
      />
    </section>
  );
}

function localYesterday(): string {
  const day = new Date(`${localToday()}T12:00:00Z`);
  day.setUTCDate(day.getUTCDate() - 1);
  return day.toISOString().slice(0, 10);
}

interface ChooseDialogProps {
  open: boolean;
  onClose: () => void;
  onChosen: (point: string, from_date: string, note: string) => Promise<void>;
}

function ChooseDialog({ open, onClose, onChosen }: ChooseDialogProps) {
  const points = useResource<{ items: TechniquePoint[] }>(open ? coachPaths.points : null);
  const [chosen, setChosen] = useState('contact_time');
  const [from, setFrom] = useState(localToday());
  const [note, setNote] = useState('');
  const point = points.value?.items.find((item) => item.key === chosen);
  return (
    <Dialog title="Choose a technique point" open={open} onClose={onClose}>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          void onChosen(chosen, from, note);
        }}
      >
        <SelectField
          label="Technique point"
          value={chosen}
          options={(points.value?.items ?? []).map((item) => ({ value: item.key, label: item.name }))}
          onChange={setChosen}
        />
        {point && <p>{point.meaning}</p>}
        {point && <p class="quiet small">The sensor cannot see: {point.sensor_cannot_see}</p>}
        <TextField label="From" type="date" value={from} onChange={setFrom} required />
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

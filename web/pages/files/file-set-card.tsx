import type { Athlete } from '../../../shared/schemas/athlete.ts';
import { SelectField } from '../../parts/select-field.tsx';
import { TextField } from '../../parts/text-field.tsx';
import type { RecordingDraft } from './recording-draft.ts';

interface FileSetCardProps {
  draft: RecordingDraft;
  /** Several recordings at once: each can have an athlete, a time and an effort of its own. */
  several: boolean;
  athletes: Athlete[];
  onChange: (draft: RecordingDraft) => void;
  onRemove: () => void;
}

/** One recording about to be sent: which file is which foot. */
export function FileSetCard({ draft, several, athletes, onChange, onRemove }: FileSetCardProps) {
  const { left, right, both } = draft;
  return (
    <fieldset class="sheet file-set">
      <legend class="visually-hidden">Recording</legend>
      <dl class="file-slots">
        {both ? (
          <Slot name="one file, both feet" file={both} />
        ) : (
          <>
            <Slot name="left" file={left} />
            <Slot name="right" file={right} />
          </>
        )}
      </dl>
      {several && (
        <div class="field-grid">
          <SelectField
            label="Its athlete"
            value={draft.athlete_id}
            options={[
              { value: '', label: 'as below' },
              ...athletes.map(({ athlete_id, name }) => ({ value: String(athlete_id), label: name })),
            ]}
            onChange={(athlete_id) => onChange({ ...draft, athlete_id })}
          />
          <TextField label="Its time, s" value={draft.time} onChange={(time) => onChange({ ...draft, time })} />
          <TextField label="Its effort, %" value={draft.effort} onChange={(effort) => onChange({ ...draft, effort })} />
        </div>
      )}
      <div class="button-row">
        {both ? (
          <>
            <button type="button" onClick={() => onChange({ ...draft, left: both, both: null })}>
              It is the left foot
            </button>
            <button type="button" onClick={() => onChange({ ...draft, right: both, both: null })}>
              It is the right foot
            </button>
          </>
        ) : (
          <button type="button" onClick={() => onChange({ ...draft, left: right, right: left })}>
            Swap left and right
          </button>
        )}
        <button type="button" onClick={onRemove}>
          Remove
        </button>
      </div>
    </fieldset>
  );
}

function Slot({ name, file }: { name: string; file: File | null }) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>
        {file ? (
          <>
            {file.name} <span class="quiet small">{sizeOf(file)}</span>
          </>
        ) : (
          <span class="quiet">no file: measured with one foot alone</span>
        )}
      </dd>
    </div>
  );
}

function sizeOf(file: File): string {
  return file.size < 1e6 ? `${Math.max(1, Math.round(file.size / 1e3))} kB` : `${(file.size / 1e6).toFixed(1)} MB`;
}

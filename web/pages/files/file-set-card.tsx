import type { ComponentChildren } from 'preact';
import type { Athlete } from '../../../shared/schemas/athlete.ts';
import type { Mounting } from '../../../shared/words.ts';
import { SelectField } from '../../parts/select-field.tsx';
import { TextField } from '../../parts/text-field.tsx';
import { FileReading } from './file-reading.tsx';
import type { RecordingDraft } from './recording-draft.ts';

interface FileSetCardProps {
  draft: RecordingDraft;
  /** Several recordings at once: each can have an athlete, a time and an effort of its own. */
  several: boolean;
  athletes: Athlete[];
  mounting: Mounting;
  onChange: (draft: RecordingDraft) => void;
  onRemove: () => void;
}

/** One recording about to be sent: which file is which foot. */
export function FileSetCard({ draft, several, athletes, mounting, onChange, onRemove }: FileSetCardProps) {
  const { left, right, both, layouts } = draft;
  const reading = (file: File, side: 'left' | 'right' | null) => {
    const otherFile = side === 'left' ? right : side === 'right' ? left : null;
    return (
      <FileReading
        key={`${file.name} ${file.size} ${file.lastModified}`}
        file={file}
        side={side}
        mounting={mounting}
        layout={layouts.get(file) ?? null}
        other={(otherFile && layouts.get(otherFile)) ?? null}
        onUse={(layout) => {
          if (layout === layouts.get(file)) return;
          if (layout === undefined) layouts.delete(file);
          else layouts.set(file, layout);
          onChange({ ...draft, layouts: new Map(layouts) });
        }}
      />
    );
  };
  return (
    <fieldset class="sheet file-set">
      <legend class="visually-hidden">Recording</legend>
      <dl class="file-slots">
        {both ? (
          <Slot name="one file, both feet" file={both}>
            {reading(both, null)}
          </Slot>
        ) : (
          <>
            <Slot name="left" file={left}>
              {left && reading(left, 'left')}
            </Slot>
            <Slot name="right" file={right}>
              {right && reading(right, 'right')}
            </Slot>
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

function Slot({ name, file, children }: { name: string; file: File | null; children: ComponentChildren }) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>
        {file ? (
          <>
            {file.name} <span class="quiet small">{sizeOf(file)}</span>
            {children}
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

import { formatNumber } from '../../app/format.ts';
import { phrasesOf } from '../../app/language.ts';
import { filesWords } from '../../../shared/messages/en/view/files.ts';
import { commonWords } from '../../../shared/messages/en/view/common.ts';
import type { ComponentChildren } from 'preact';
import type { Athlete } from '../../../shared/schemas/athlete.ts';
import type { Mounting } from '../../../shared/words.ts';
import { SelectField } from '../../parts/select-field.tsx';
import { TextField } from '../../parts/text-field.tsx';
import { FileReading } from './file-reading.tsx';
import type { RecordingDraft } from './recording-draft.ts';

const common = phrasesOf('common', commonWords);
const t = phrasesOf('files', filesWords);

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
      <legend class="visually-hidden">{common('recording')}</legend>
      <dl class="file-slots">
        {both ? (
          <Slot name={t('one_file_both_feet')} file={both}>
            {reading(both, null)}
          </Slot>
        ) : (
          <>
            <Slot name={common('left')} file={left}>
              {left && reading(left, 'left')}
            </Slot>
            <Slot name={common('right')} file={right}>
              {right && reading(right, 'right')}
            </Slot>
          </>
        )}
      </dl>
      {several && (
        <div class="field-grid">
          <SelectField
            label={t('its_athlete')}
            value={draft.athlete_id}
            options={[
              { value: '', label: t('as_below') },
              ...athletes.map(({ athlete_id, name }) => ({ value: String(athlete_id), label: name })),
            ]}
            onChange={(athlete_id) => onChange({ ...draft, athlete_id })}
          />
          <TextField label={t('its_time_s')} value={draft.time} onChange={(time) => onChange({ ...draft, time })} />
          <TextField
            label={t('its_effort')}
            value={draft.effort}
            onChange={(effort) => onChange({ ...draft, effort })}
          />
        </div>
      )}
      <div class="button-row">
        {both ? (
          <>
            <button type="button" onClick={() => onChange({ ...draft, left: both, both: null })}>
              {t('it_is_the_left_foot')}
            </button>
            <button type="button" onClick={() => onChange({ ...draft, right: both, both: null })}>
              {t('it_is_the_right_foot')}
            </button>
          </>
        ) : (
          <button type="button" onClick={() => onChange({ ...draft, left: right, right: left })}>
            {t('swap_left_and_right')}
          </button>
        )}
        <button type="button" onClick={onRemove}>
          {common('remove')}
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
          <span class="quiet">{t('no_file_measured_with_one')}</span>
        )}
      </dd>
    </div>
  );
}

function sizeOf(file: File): string {
  return file.size < 1e6 ? `${Math.max(1, Math.round(file.size / 1e3))} kB` : `${formatNumber(file.size / 1e6, 1)} MB`;
}

import { phrasesOf } from '../../app/language.ts';
import { filesWords } from '../../../shared/messages/en/view/files.ts';
import { useState } from 'preact/hooks';
import { droppedFiles } from './dropped-files.ts';

const t = phrasesOf('files', filesWords);

/** Takes files by dropping or choosing. */
export function DropArea({ onFiles }: { onFiles: (files: File[]) => void }) {
  const [over, setOver] = useState(false);
  const take = (files: File[]) => {
    if (files.length > 0) onFiles(files);
  };
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: dropping is an extra way; the file field inside does the same by keyboard
    <div
      class={`drop-area${over ? ' over' : ''}`}
      onDragOver={(event) => {
        event.preventDefault();
        setOver(true);
      }}
      onDragLeave={() => setOver(false)}
      onDrop={(event) => {
        event.preventDefault();
        setOver(false);
        void droppedFiles(event.dataTransfer).then(take);
      }}
    >
      <label class="field">
        <span>{t('sensor_files_left_and_right')}</span>
        <input
          type="file"
          multiple
          onChange={(event) => {
            take([...(event.currentTarget.files ?? [])]);
            event.currentTarget.value = '';
          }}
        />
      </label>
      <p class="quiet small">{t('choose_both_at_once_or')}</p>
    </div>
  );
}

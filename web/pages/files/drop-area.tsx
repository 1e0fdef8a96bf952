import { useState } from 'preact/hooks';
import { droppedFiles } from './dropped-files.ts';

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
        <span>Sensor files, left and right</span>
        <input
          type="file"
          multiple
          onChange={(event) => {
            take([...(event.currentTarget.files ?? [])]);
            event.currentTarget.value = '';
          }}
        />
      </label>
      <p class="quiet small">
        Choose both at once, or drop them here, whole folders too. "left" and "right" in the names are understood.
      </p>
    </div>
  );
}

import { useRef, useState } from 'preact/hooks';

/** Takes files by dropping or choosing. */
export function DropArea({ onFiles }: { onFiles: (files: File[]) => void }) {
  const [over, setOver] = useState(false);
  const input = useRef<HTMLInputElement>(null);
  const take = (list: FileList | null | undefined) => {
    if (list && list.length > 0) onFiles([...list]);
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
        take(event.dataTransfer?.files);
      }}
    >
      <label class="field">
        <span>Sensor files, left and right</span>
        <input
          ref={input}
          type="file"
          multiple
          onChange={(event) => {
            take(event.currentTarget.files);
            event.currentTarget.value = '';
          }}
        />
      </label>
      <p class="quiet small">Choose both at once, or drop them here. "left" and "right" in the names are understood.</p>
    </div>
  );
}

import { phrasesOf } from '../../app/language.ts';
import { filesWords } from '../../../shared/messages/en/view/files.ts';
import { mountingChoices } from '../../app/mounting-words.ts';
import { useState } from 'preact/hooks';
import type { Layout } from '../../../shared/schemas/layout.ts';
import type { Mounting } from '../../../shared/words.ts';
import { Choice } from '../../parts/choice.tsx';
import { LayoutEditor } from '../../parts/layout-editor/layout-editor.tsx';
import { useLayoutPreview } from '../../parts/layout-editor/use-layout-preview.ts';

const t = phrasesOf('files', filesWords);

interface TryFileProps {
  label: string;
  /** To read the file with; found from the file without it. */
  layout?: Layout;
  onSaved: () => void;
}

/** Takes a sensor file to make or change a layout by; nothing of the file is stored. */
export function TryFile({ label, layout, onSaved }: TryFileProps) {
  const [file, setFile] = useState<File | null>(null);
  const [mounting, setMounting] = useState<Mounting>('foot');
  return (
    <div class="files-form">
      <div class="drop-area">
        <label class="field">
          <span>{label}</span>
          <input
            type="file"
            onChange={(event) => {
              setFile(event.currentTarget.files?.[0] ?? null);
              event.currentTarget.value = '';
            }}
          />
        </label>
        <p class="quiet small">{t('the_file_is_only_looked')}</p>
      </div>
      {file && (
        <section class="sheet" aria-label={file.name}>
          <p>
            <strong>{file.name}</strong>
          </p>
          <Choice legend={t('sensor_on_the')} value={mounting} options={mountingChoices()} onChange={setMounting} />
          <Tried key={`${file.name} ${file.size}`} file={file} mounting={mounting} layout={layout} onSaved={onSaved} />
        </section>
      )}
    </div>
  );
}

function Tried({ file, mounting, layout, onSaved }: Omit<TryFileProps, 'label'> & { file: File; mounting: Mounting }) {
  // What is kept from here comes back as the layout: the work goes on with what it began with.
  const [begun] = useState(layout ?? null);
  const work = useLayoutPreview({ file, mounting, side: null, layout: begun });
  return <LayoutEditor work={work} fileName={file.name} side={null} name={layout?.name} onSaved={onSaved} />;
}

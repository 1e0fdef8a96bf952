import { phrasesOf } from '../../app/language.ts';
import { filesWords } from '../../../shared/messages/en/view/files.ts';
import { useState } from 'preact/hooks';
import type { EvidenceItem } from '../../../shared/schemas/layout-preview.ts';
import type { Recording } from '../../../shared/schemas/recording.ts';
import type { RecordingLine, Repetition } from '../../../shared/schemas/repetition.ts';
import { paths } from '../../api.ts';
import { useResource } from '../../app/use-resource.ts';
import { EvidenceTable } from '../../parts/evidence-table.tsx';
import { ResourceView } from '../../parts/resource-view.tsx';

const t = phrasesOf('files', filesWords);

/** How each file of a repetition was understood: what was decided, why, and how sure that is. */
export function HowRead({ repetition_id }: { repetition_id: number | undefined }) {
  const [open, setOpen] = useState(false);
  const repetition = useResource<Repetition>(open && repetition_id ? paths.repetition(repetition_id) : null);
  return (
    <details onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>{t('how_the_files_were_understood')}</summary>
      {open && (
        <ResourceView resource={repetition} name={t('recordings')}>
          {({ recordings }) => recordings.map((line) => <OneFile key={line.recording_id} line={line} />)}
        </ResourceView>
      )}
    </details>
  );
}

function OneFile({ line }: { line: RecordingLine }) {
  const recording = useResource<Recording>(paths.recording(line.recording_id));
  return (
    <ResourceView resource={recording} name={line.file_name}>
      {({ evidence }) => (
        <EvidenceTable
          evidence={Array.isArray(evidence) ? (evidence as EvidenceItem[]) : []}
          caption={line.file_name}
        />
      )}
    </ResourceView>
  );
}

import { useState } from 'preact/hooks';
import type { Recording } from '../../../shared/schemas/recording.ts';
import type { RecordingLine, Repetition } from '../../../shared/schemas/repetition.ts';
import { paths } from '../../api.ts';
import { useResource } from '../../app/use-resource.ts';
import { ResourceView } from '../../parts/resource-view.tsx';

/** One thing understood about a file, and why. */
interface Evidence {
  about: string;
  decided: string;
  because: string;
  source: 'told' | 'written' | 'measured' | 'assumed';
}

const SOURCE_WORDS: Record<Evidence['source'], string> = {
  told: 'told',
  written: 'written in the file',
  measured: 'seen in the data',
  assumed: 'assumed: check it',
};

/** How each file of a repetition was understood: what was decided, why, and how sure that is. */
export function HowRead({ repetition_id }: { repetition_id: number | undefined }) {
  const [open, setOpen] = useState(false);
  const repetition = useResource<Repetition>(open && repetition_id ? paths.repetition(repetition_id) : null);
  return (
    <details onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>How the files were understood</summary>
      {open && (
        <ResourceView resource={repetition} name="recordings">
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
        <table class="verdicts">
          <caption>{line.file_name}</caption>
          <tbody>
            {(Array.isArray(evidence) ? (evidence as Evidence[]) : []).map((item) => (
              <tr key={item.about}>
                <th scope="row">{item.about}</th>
                <td>
                  {item.decided}{' '}
                  <span class="quiet small">
                    {SOURCE_WORDS[item.source]}: {item.because}
                  </span>
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </ResourceView>
  );
}

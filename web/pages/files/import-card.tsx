import { api } from '../../api.ts';
import { FaultBox } from '../../parts/fault-box.tsx';
import { HowRead } from './how-read.tsx';
import { KeepLayout } from './keep-layout.tsx';
import { ImportDoubts } from './import-doubts.tsx';
import { LayoutQuestion } from './layout-question.tsx';
import { namesOf, type SentImport } from './recording-draft.ts';
import { ReadAnew } from './read-anew.tsx';
import { RepetitionResultCard } from './repetition-result-card.tsx';
import { useEffect, useRef, useState } from 'preact/hooks';
import { useImport } from './use-import.ts';

interface ImportCardProps {
  sent: SentImport;
  /** The files go back into the form, to be read in another way. */
  onTakenBack: () => void;
}

/** One recording from arrival to result, on the page where it was dropped. */
export function ImportCard({ sent, onTakenBack }: ImportCardProps) {
  const { value, fault, follow } = useImport(sent);
  const [answered, setAnswered] = useState(false);
  const onAnswered = () => {
    setAnswered(true);
    follow();
  };
  const names = namesOf(sent.draft);
  const working = !fault && (!value || value.state === 'queued' || value.state === 'working');

  // The form is long on a phone: bring what was just started into sight.
  const card = useRef<HTMLElement>(null);
  useEffect(() => card.current?.scrollIntoView({ block: 'nearest' }), [value?.state]);

  return (
    <section class="sheet import-card" ref={card} aria-label={`Import of ${names}`}>
      <h2>{names}</h2>
      {fault && <FaultBox fault={fault} />}
      {working && (
        <>
          <progress max={1} value={value?.progress ?? sent.travelled.value ?? 0} aria-label={`Progress of ${names}`} />
          <p>{value?.step ?? (sent.travelled.value === null ? 'waits for the ones before it' : 'sending files')}</p>
          <button type="button" onClick={() => (value ? void api.cancelImport(value.import_id) : sent.abort())}>
            Cancel
          </button>
        </>
      )}
      {value?.state === 'cancelled' && <p>Cancelled. Nothing was measured.</p>}
      {value?.state === 'failed' && value.fault && (
        <>
          <LayoutQuestion import_id={value.import_id} fault={value.fault} onAnswered={onAnswered} />
          <button type="button" onClick={onTakenBack}>
            Back to the form, to look at the columns
          </button>
        </>
      )}
      {value?.state === 'done' && (
        <>
          {value.duplicate_of !== null && (
            <p>These files were brought in before. Nothing was doubled; this is the result of that time.</p>
          )}
          {value.repetition_ids.map((repetition_id) => (
            <RepetitionResultCard key={repetition_id} repetition_id={repetition_id} />
          ))}
          {answered && <KeepLayout import_id={value.import_id} fileName={value.files[0]?.file_name ?? ''} />}
          <ImportDoubts value={value} />
          <HowRead repetition_id={value.repetition_ids[0]} />
          <ReadAnew repetition_ids={value.repetition_ids} onTakenBack={onTakenBack} />
        </>
      )}
    </section>
  );
}

import { phrasesOf, speech } from '../../app/language.ts';
import { commonWords } from '../../../shared/messages/en/view/common.ts';
import { filesWords } from '../../../shared/messages/en/view/files.ts';
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

const t = phrasesOf('files', filesWords);
const common = phrasesOf('common', commonWords);

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
  const names = speech.value.list(namesOf(sent.draft));
  const working = !fault && (!value || value.state === 'queued' || value.state === 'working');

  // The form is long on a phone: bring what was just started into sight.
  const card = useRef<HTMLElement>(null);
  useEffect(() => card.current?.scrollIntoView({ block: 'nearest' }), [value?.state]);

  return (
    <section class="sheet import-card" ref={card} aria-label={t('import_of', { names })}>
      <h2>{names}</h2>
      {fault && <FaultBox fault={fault} />}
      {working && (
        <>
          <progress
            max={1}
            value={value?.progress ?? sent.travelled.value ?? 0}
            aria-label={t('progress_of', { names })}
          />
          <p>{value?.step ?? (sent.travelled.value === null ? t('waits_for_the_ones_before') : t('sending_files'))}</p>
          <button type="button" onClick={() => (value ? void api.cancelImport(value.import_id) : sent.abort())}>
            {common('cancel')}
          </button>
        </>
      )}
      {value?.state === 'cancelled' && <p>{t('cancelled_nothing_was_measured')}</p>}
      {value?.state === 'failed' && value.fault && (
        <>
          <LayoutQuestion import_id={value.import_id} fault={value.fault} onAnswered={onAnswered} />
          <button type="button" onClick={onTakenBack}>
            {t('back_to_the_form_to')}
          </button>
        </>
      )}
      {value?.state === 'done' && (
        <>
          {value.duplicate_of !== null && <p>{t('these_files_were_brought_in')}</p>}
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

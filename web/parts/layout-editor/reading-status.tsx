import { capital } from '../../../shared/capital.ts';
import { commonWords } from '../../../shared/messages/en/view/common.ts';
import { filesWords } from '../../../shared/messages/en/view/files.ts';
import { speech, phrasesOf } from '../../app/language.ts';
import type { LayoutPreview, ReadingCheck } from '../../../shared/schemas/layout-preview.ts';
import { FaultBox } from '../fault-box.tsx';
import { VerdictMark, worstOf } from './reading-checks.tsx';
import type { LayoutWork } from './use-layout-preview.ts';

const t = phrasesOf('files', filesWords);
const common = phrasesOf('common', commonWords);

const verdictWords = (): Record<ReadingCheck['verdict'], string> => ({
  plausible: t('looks_right'),
  doubtful: t('doubtful_2'),
  impossible: t('read_wrongly'),
});

interface ReadingStatusProps {
  work: LayoutWork;
  /** Why a file cannot be read stands in full below. */
  brief?: boolean;
}

/** In one line: how a file is read and whether that is plausible; where it does not tell, the readings to choose from. */
export function ReadingStatus({ work, brief = false }: ReadingStatusProps) {
  const { preview, busy, missing, fault } = work;
  if (fault) return <FaultBox fault={fault} onRetry={work.reset} />;
  if (!preview) return <p role="status">{t('looking_at_the_file')}</p>;
  if (missing !== '' && work.changed) {
    return (
      <p role="status">
        <strong>{missing}</strong>
      </p>
    );
  }
  if (preview.choices.length > 0) {
    return (
      <div class="reading-question" role="status">
        <p>
          <strong>{questionOf(preview)}</strong>
        </p>
        <div class="actions">
          {preview.choices.map(({ label, correction }, index) => (
            <button key={index} type="button" disabled={busy} onClick={() => work.answer(correction)}>
              {speech.value.because(label).replaceAll('+-', '±')}
            </button>
          ))}
        </div>
      </div>
    );
  }
  if (preview.fault) {
    return (
      <p role="status">
        <VerdictMark verdict="impossible" /> <strong>{t('cannot_be_read_yet')}</strong>{' '}
        {!brief && speech.value.tell(preview.fault).message}
      </p>
    );
  }
  const verdict = worstOf(preview.sensors);
  return (
    <p role="status" class={busy ? 'quiet' : undefined}>
      <VerdictMark verdict={verdict} /> <strong>{busy ? t('reading') : `${verdictWords()[verdict]}.`}</strong>{' '}
      {sentence(preview, verdict)}
      {rowsSetAside(preview)}
    </p>
  );
}

/** A file that looks right may still have rows that could not be read. */
function rowsSetAside({ faults }: LayoutPreview): string {
  const aside = faults.find(({ code }) => code === 'ROWS_SET_ASIDE');
  return aside ? ` ${speech.value.tell(aside).message}` : '';
}

/** The verdict again, for the edge of a small screen while the fields above it are changed; readers have the status itself. */
export function ReadingBar({ work }: { work: LayoutWork }) {
  const { preview, busy } = work;
  if (!preview) return null;
  const missing = preview.columns.length > 0 ? work.missing : '';
  const refused = preview.fault !== null;
  const verdict = refused ? 'impossible' : worstOf(preview.sensors);
  const words =
    missing || (refused ? t('cannot_be_read_yet_2') : `${verdictWords()[verdict]}. ${sentence(preview, verdict)}`);
  return (
    <div class="reading-bar" aria-hidden="true">
      <span>
        {!missing && <VerdictMark verdict={verdict} />} {busy ? t('reading') : words}
      </span>
    </div>
  );
}

/** The question without what a coach need not know. */
function questionOf({ fault }: LayoutPreview): string {
  const told = fault && speech.value.tell(fault);
  const found = told?.where.found;
  return found
    ? t('which_is_right_2', { file: String(told.where.file ?? ''), found: String(found) })
    : (told?.message ?? '');
}

function sentence(preview: LayoutPreview, verdict: ReadingCheck['verdict']): string {
  const bad = preview.sensors.flatMap(({ checks }) => checks).find((check) => check.verdict === verdict);
  const { because } = speech.value;
  if (verdict !== 'plausible' && bad)
    return `${capital(t(`check_${bad.about}`))}: ${because(bad.found)}. ${capital(because(bad.why))}.`;
  const [sensor] = preview.layout?.sensors ?? [];
  const of = (about: ReadingCheck['about']) =>
    because(preview.sensors[0]?.checks.find((check) => check.about === about)?.found ?? '');
  const units =
    sensor &&
    `${common('n_columns', { n: preview.columns.length })}, ${sensor.acc.unit}${sensor.gyr ? t('and', { unit: sensor.gyr.unit }) : ''}`;
  const saved = preview.saved_layout ? t('with_your_layout', { saved_layout: preview.saved_layout }) : '';
  return t('read', { saved, value: [units, of('rate'), of('running')].filter(Boolean).join('; ') });
}

import { repetitionWords } from '../../../shared/messages/en/view/repetition.ts';
import { dateLocale, phrasesOf } from '../../app/language.ts';
import { useState } from 'preact/hooks';
import type { Provenance as StoredProvenance } from '../../../shared/analysis.ts';
import type { Fault } from '../../../shared/fault.ts';
import type { AnalysisAnswer, RecordingLine } from '../../../shared/schemas/repetition.ts';
import { api, paths } from '../../api.ts';
import { formatNumber } from '../../app/format.ts';
import { faultOf } from '../../client.ts';
import { FaultBox } from '../../parts/fault-box.tsx';

const t = phrasesOf('repetition', repetitionWords);

type FilterUsed = StoredProvenance['filters'][number];

function filterWords({ channel, kind, order, cutoff_hz, passes }: FilterUsed): string {
  return t('order_3_db_at_hz', {
    channel,
    kind,
    order,
    cutoff_hz: formatNumber(cutoff_hz, 1),
    passes: t('n_passes', { n: passes }),
  });
}

interface ProvenanceProps {
  analysis: AnalysisAnswer;
  recordings: RecordingLine[];
  onChanged: () => Promise<unknown>;
}

/** What made this result, so that others can check it: version, method, settings, files; and how to make it anew. */
export function Provenance({ analysis, recordings, onChanged }: ProvenanceProps) {
  const [fault, setFault] = useState<Fault | null>(null);
  const [busy, setBusy] = useState(false);

  async function again() {
    setBusy(true);
    try {
      await api.analyseAgain(analysis.repetition_id);
      await onChanged();
      setFault(null);
    } catch (error) {
      setFault(faultOf(error));
    } finally {
      setBusy(false);
    }
  }

  return (
    <details class="provenance">
      <summary>{t('how_made')}</summary>
      {fault && <FaultBox fault={fault} />}
      <dl class="pairs">
        <dt>{t('version')}</dt>
        <dd>{t('version_of', { version: analysis.version, method: analysis.method })}</dd>
        <dt>{t('made')}</dt>
        <dd>{new Date(analysis.created_utc).toLocaleString(dateLocale())}</dd>
        <dt>{t('settings')}</dt>
        <dd>
          <code>{analysis.settings_sha256}</code>
        </dd>
        {recordings.map((recording) => (
          <>
            <dt>{t(recording.side === 'unknown' ? 'file' : `${recording.side}_file`)}</dt>
            <dd>
              <a href={paths.raw(recording.recording_id)} download={recording.file_name}>
                {recording.file_name}
              </a>
              , {formatNumber(recording.sampling_rate_hz, 1)} {'Hz, '}
              <code>{recording.raw_sha256}</code>
            </dd>
          </>
        ))}
        {analysis.filters.map((filter, index) => (
          <>
            <dt>{t('filter_n', { n: index + 1 })}</dt>
            <dd lang="en">{filterWords(filter as unknown as FilterUsed)}</dd>
          </>
        ))}
      </dl>
      <p class="actions no-print">
        <button type="button" disabled={busy} onClick={() => void again()}>
          {busy ? t('measuring') : t('measure_again')}
        </button>
        <a class="button" href="/api/docs">
          API
        </a>
      </p>
    </details>
  );
}

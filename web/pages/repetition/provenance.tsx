import type { AnalysisAnswer, RecordingLine } from '../../../shared/schemas/repetition.ts';

interface ProvenanceProps {
  analysis: AnalysisAnswer;
  recordings: RecordingLine[];
}

/** What made this result, so that others can check it: version, method, settings, files. */
export function Provenance({ analysis, recordings }: ProvenanceProps) {
  return (
    <details class="provenance">
      <summary>How this result was made</summary>
      <dl class="pairs">
        <dt>version</dt>
        <dd>
          {analysis.version}, method {analysis.method}
        </dd>
        <dt>made</dt>
        <dd>{new Date(analysis.created_utc).toLocaleString()}</dd>
        <dt>settings</dt>
        <dd>
          <code>{analysis.settings_sha256}</code>
        </dd>
        {recordings.map((recording) => (
          <>
            <dt>{recording.side === 'unknown' ? 'file' : `${recording.side} file`}</dt>
            <dd>
              {recording.file_name}, {recording.sampling_rate_hz?.toFixed(1) ?? '?'} Hz,{' '}
              <code>{recording.raw_sha256}</code>
            </dd>
          </>
        ))}
        {analysis.filters.map((filter, index) => (
          <>
            <dt>filter {index + 1}</dt>
            <dd>
              {Object.entries(filter)
                .map(([name, value]) => `${name.replaceAll('_', ' ')} ${String(value)}`)
                .join(', ')}
            </dd>
          </>
        ))}
      </dl>
    </details>
  );
}

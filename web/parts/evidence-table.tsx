import type { EvidenceItem } from '../../shared/schemas/layout-preview.ts';

const SOURCE_WORDS: Record<EvidenceItem['source'], string> = {
  told: 'told',
  written: 'written in the file',
  measured: 'seen in the data',
  assumed: 'assumed: check it',
};

/** What was understood about a file: each decision, why, and how sure that is. */
export function EvidenceTable({ evidence, caption }: { evidence: EvidenceItem[]; caption: string }) {
  return (
    <table class="verdicts">
      <caption>{caption}</caption>
      <tbody>
        {evidence.map((item) => (
          <tr key={`${item.about} ${item.decided}`}>
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
  );
}

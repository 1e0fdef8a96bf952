import { phrasesOf, speech } from '../app/language.ts';
import { commonWords } from '../../shared/messages/en/view/common.ts';
import type { EvidenceItem } from '../../shared/schemas/layout-preview.ts';

const common = phrasesOf('common', commonWords);

const sourceWords = (): Record<EvidenceItem['source'], string> => ({
  told: common('told'),
  written: common('written_in_the_file'),
  measured: common('seen_in_the_data'),
  assumed: common('assumed_check_it'),
});

/** What was understood about a file: each decision, why, and how sure that is. */
export function EvidenceTable({ evidence, caption }: { evidence: EvidenceItem[]; caption: string }) {
  return (
    <table class="verdicts">
      <caption>{caption}</caption>
      <tbody>
        {evidence.map((item) => {
          const decided = speech.value.because(item.decided);
          return (
            <tr key={`${item.about} ${decided}`}>
              <th scope="row">{common(`about_${item.about}`)}</th>
              <td>
                {decided}{' '}
                <span class="quiet small">
                  {sourceWords()[item.source]}: {speech.value.because(item.because)}
                </span>
              </td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}

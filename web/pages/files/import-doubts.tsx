import { commonWords } from '../../../shared/messages/en/view/common.ts';
import { filesWords } from '../../../shared/messages/en/view/files.ts';
import type { ToldFault } from '../../../shared/fault.ts';
import { speech, phrasesOf } from '../../app/language.ts';
import type { Import } from '../../../shared/schemas/import.ts';
import { paths } from '../../api.ts';

const t = phrasesOf('files', filesWords);
const common = phrasesOf('common', commonWords);

/** What to know about an import that went well: rows set aside, doubts about the data. */
export function ImportDoubts({ value }: { value: Import }) {
  if (value.faults.length === 0 && value.rejected_count === 0) return null;
  const codes = new Map<string, ToldFault[]>();
  for (const fault of value.faults.map(speech.value.tell)) {
    codes.set(fault.code, [...(codes.get(fault.code) ?? []), fault]);
  }
  return (
    <details class="import-doubts">
      <summary>{t('to_know_about_the_files', { things: common('n_things', { n: value.faults.length }) })}</summary>
      <ul>
        {[...codes].map(([code, faults]) => (
          <li key={code}>
            {faults[0].message}
            {faults[0].hint && <span class="quiet"> {faults[0].hint}</span>}
            {faults.length > 1 && (
              <span class="quiet">{t('and_more_of_this_kind', { n_faults: faults.length - 1 })}</span>
            )}
          </li>
        ))}
      </ul>
      {value.rejected_count > 0 && (
        <p>
          <a class="button" href={paths.rejectedCsv(value.import_id)} download>
            {t('save_the_set_aside_as', { rows: common('n_rows', { n: value.rejected_count }) })}
          </a>
        </p>
      )}
    </details>
  );
}

import type { ToldFault } from '../../../shared/fault.ts';
import { speech } from '../../app/language.ts';
import type { Import } from '../../../shared/schemas/import.ts';
import { paths } from '../../api.ts';
import { count } from '../../app/describe.ts';

/** What to know about an import that went well: rows set aside, doubts about the data. */
export function ImportDoubts({ value }: { value: Import }) {
  if (value.faults.length === 0 && value.rejected_count === 0) return null;
  const codes = new Map<string, ToldFault[]>();
  for (const fault of value.faults.map(speech.value.tell)) {
    codes.set(fault.code, [...(codes.get(fault.code) ?? []), fault]);
  }
  return (
    <details class="import-doubts">
      <summary>{count(value.faults.length, 'thing')} to know about the files</summary>
      <ul>
        {[...codes].map(([code, faults]) => (
          <li key={code}>
            {faults[0].message}
            {faults[0].hint && <span class="quiet"> {faults[0].hint}</span>}
            {faults.length > 1 && <span class="quiet"> (and {faults.length - 1} more of this kind)</span>}
          </li>
        ))}
      </ul>
      {value.rejected_count > 0 && (
        <p>
          <a class="button" href={paths.rejectedCsv(value.import_id)} download>
            Save the {count(value.rejected_count, 'row')} set aside as CSV
          </a>
        </p>
      )}
    </details>
  );
}

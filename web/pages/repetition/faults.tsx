import type { Fault } from '../../../shared/fault.ts';

/** What was dropped or doubted in the analysis; nothing is shown when nothing was. */
export function Faults({ faults }: { faults: Fault[] }) {
  if (faults.length === 0) return null;
  return (
    <aside class="doubts" aria-label="Doubts about this repetition">
      <ul>
        {faults.map((fault) => (
          <li key={`${fault.code}${fault.message}`}>
            {fault.message} {fault.hint && <span class="quiet">{fault.hint}</span>}
          </li>
        ))}
      </ul>
    </aside>
  );
}

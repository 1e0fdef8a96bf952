import type { Fault } from '../../../shared/fault.ts';
import { speech } from '../../app/language.ts';

/** What was dropped or doubted in the analysis; nothing is shown when nothing was. */
export function Faults({ faults }: { faults: Fault[] }) {
  if (faults.length === 0) return null;
  return (
    <aside class="doubts" aria-label="Doubts about this repetition">
      <ul>
        {faults.map(speech.value.tell).map(({ code, message, hint }) => (
          <li key={`${code}${message}`}>
            {message} {hint && <span class="quiet">{hint}</span>}
          </li>
        ))}
      </ul>
    </aside>
  );
}

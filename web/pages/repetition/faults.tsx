import { repetitionWords } from '../../../shared/messages/en/view/repetition.ts';
import type { Fault } from '../../../shared/fault.ts';
import { speech, phrasesOf } from '../../app/language.ts';

const t = phrasesOf('repetition', repetitionWords);

/** What was dropped or doubted in the analysis; nothing is shown when nothing was. */
export function Faults({ faults }: { faults: Fault[] }) {
  if (faults.length === 0) return null;
  return (
    <aside class="doubts" aria-label={t('doubts')}>
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

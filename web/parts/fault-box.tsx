import { commonWords } from '../../shared/messages/en/view/common.ts';
import type { Fault } from '../../shared/fault.ts';
import { speech, phrasesOf } from '../app/language.ts';

const common = phrasesOf('common', commonWords);

interface FaultBoxProps {
  fault: Fault;
  /** Offered as a button when trying again can help. */
  onRetry?: () => void;
}

/** What went wrong and what to do, for people; the code and place stay at hand for a report. */
export function FaultBox({ fault, onRetry }: FaultBoxProps) {
  const { code, message, hint, where: places } = speech.value.tell(fault);
  const where = Object.entries(places).filter(([, value]) => value !== null);
  return (
    <div class="fault" role="alert">
      <p class="fault-message">{message}</p>
      {hint && (
        <p>
          <strong>{common('what_to_do')}</strong> {hint}
        </p>
      )}
      {onRetry && (
        <p>
          <button type="button" onClick={onRetry}>
            {common('try_again')}
          </button>
        </p>
      )}
      <details>
        <summary>{common('where_it_happened')}</summary>
        <dl class="pairs">
          <dt>{common('code')}</dt>
          <dd>
            <code>{code}</code>
          </dd>
          {where.map(([name, value]) => (
            <>
              <dt>{name.replaceAll('_', ' ')}</dt>
              <dd>{String(value)}</dd>
            </>
          ))}
        </dl>
      </details>
    </div>
  );
}

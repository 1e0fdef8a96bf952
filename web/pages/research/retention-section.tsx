import { useState } from 'preact/hooks';
import type { Fault } from '../../../shared/fault.ts';
import type { RetentionQuestion } from '../../../shared/schemas/retention.ts';
import { formatDate } from '../../app/format.ts';
import { useResource } from '../../app/use-resource.ts';
import { client, faultOf } from '../../client.ts';
import { FaultBox } from '../../parts/fault-box.tsx';
import { ResourceView } from '../../parts/resource-view.tsx';

/** The yearly question: whose data are still needed. Nothing is erased by itself. */
export function RetentionSection() {
  const questions = useResource<{ items: RetentionQuestion[] }>('/coach/retention');
  const [fault, setFault] = useState<Fault | null>(null);
  async function keep({ athlete_id }: RetentionQuestion) {
    try {
      await client.post(`/coach/athletes/${athlete_id}/keep`, {});
      setFault(null);
      await questions.reload();
    } catch (error) {
      setFault(faultOf(error));
    }
  }
  return (
    <section aria-labelledby="retention">
      <h2 id="retention">Still needed?</h2>
      <p class="quiet">
        Athletes without a session for a year. Keep them for another year, or erase them on their page; nothing is
        erased by itself.
      </p>
      {fault && <FaultBox fault={fault} />}
      <ResourceView resource={questions} name="athletes">
        {({ items }) =>
          items.length === 0 ? (
            <p class="quiet">Nobody at present.</p>
          ) : (
            <ul class="lines">
              {items.map((question) => (
                <li key={question.athlete_id} class="line consent-line">
                  <span class="line-main">
                    <strong>{question.name}</strong>
                    <span class="quiet">
                      {question.last_session_date
                        ? `last session ${formatDate(question.last_session_date)}`
                        : 'no session'}
                      {question.deleted && '; deleted, but all is still there'}
                    </span>
                  </span>
                  <span class="actions">
                    <button type="button" class="button" onClick={() => void keep(question)}>
                      Keep a year<span class="visually-hidden"> the data of {question.name}</span>
                    </button>
                    <a class="button" href={`#/athletes/${question.athlete_id}/person`}>
                      Erase …<span class="visually-hidden"> {question.name}</span>
                    </a>
                  </span>
                </li>
              ))}
            </ul>
          )
        }
      </ResourceView>
    </section>
  );
}

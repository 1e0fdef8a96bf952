import { phrasesOf } from '../../app/language.ts';
import { commonWords } from '../../../shared/messages/en/view/common.ts';
import { researchWords } from '../../../shared/messages/en/view/research.ts';
import { useState } from 'preact/hooks';
import type { Fault } from '../../../shared/fault.ts';
import type { RetentionQuestion } from '../../../shared/schemas/retention.ts';
import { formatDate } from '../../app/format.ts';
import { useResource } from '../../app/use-resource.ts';
import { client, faultOf } from '../../client.ts';
import { FaultBox } from '../../parts/fault-box.tsx';
import { ResourceView } from '../../parts/resource-view.tsx';

const t = phrasesOf('research', researchWords);
const common = phrasesOf('common', commonWords);

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
      <h2 id="retention">{t('still_needed')}</h2>
      <p class="quiet">{t('athletes_without_a_session_for')}</p>
      {fault && <FaultBox fault={fault} />}
      <ResourceView resource={questions} name={common('athletes')}>
        {({ items }) =>
          items.length === 0 ? (
            <p class="quiet">{t('nobody_at_present')}</p>
          ) : (
            <ul class="lines">
              {items.map((question) => (
                <li key={question.athlete_id} class="line consent-line">
                  <span class="line-main">
                    <strong>{question.name}</strong>
                    <span class="quiet">
                      {question.last_session_date
                        ? t('last_session', { last_session_date: formatDate(question.last_session_date) })
                        : t('no_session')}
                      {question.deleted && t('deleted_but_all_is_still')}
                    </span>
                  </span>
                  <span class="actions">
                    <button type="button" class="button" onClick={() => void keep(question)}>
                      {t('keep_a_year')}
                      <span class="visually-hidden">{t('the_data_of', { name: question.name })}</span>
                    </button>
                    <a class="button" href={`#/athletes/${question.athlete_id}/person`}>
                      {t('erase')}
                      <span class="visually-hidden"> {question.name}</span>
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

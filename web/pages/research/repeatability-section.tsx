import { formatNumber } from '../../app/format.ts';
import { labelText, phrasesOf, speech } from '../../app/language.ts';
import { commonWords } from '../../../shared/messages/en/view/common.ts';
import { researchWords } from '../../../shared/messages/en/view/research.ts';
import { useState } from 'preact/hooks';
import { quantityDefinition, REPEATABLE_QUANTITIES } from '../../../shared/coach-quantities.ts';
import type { Fault } from '../../../shared/fault.ts';
import type { RepeatabilityStudy } from '../../../shared/schemas/agreement.ts';
import { client, faultOf } from '../../client.ts';
import { FaultBox } from '../../parts/fault-box.tsx';
import { SelectField } from '../../parts/select-field.tsx';
import { TableScroll } from '../../parts/table-scroll.tsx';
import { TextField } from '../../parts/text-field.tsx';

const t = phrasesOf('research', researchWords);
const common = phrasesOf('common', commonWords);

const quantities = () =>
  REPEATABLE_QUANTITIES.map((value) => ({ value, label: labelText(quantityDefinition(value)?.label ?? value) }));

/** Test and retest: how much a quantity differs from session to session where nothing should have changed. */
export function RepeatabilitySection() {
  const [quantity, setQuantity] = useState('contact_time_ms');
  const [effort, setEffort] = useState('95');
  const [from, setFrom] = useState('');
  const [to, setTo] = useState('');
  const [study, setStudy] = useState<RepeatabilityStudy | null>(null);
  const [fault, setFault] = useState<Fault | null>(null);
  async function compare(event: Event) {
    event.preventDefault();
    try {
      const order = {
        quantity,
        ...(effort ? { effort_from_percent: Number(effort) } : {}),
        ...(from ? { from } : {}),
        ...(to ? { to } : {}),
      };
      setStudy(await client.post<RepeatabilityStudy>('/repeatability', order));
      setFault(null);
    } catch (error) {
      setStudy(null);
      setFault(faultOf(error));
    }
  }
  return (
    <section aria-labelledby="repeatability">
      <h2 id="repeatability">{t('repeatability')}</h2>
      <p class="quiet">{t('each_athletes_mean_of_a')}</p>
      <form class="sheet" onSubmit={(event) => void compare(event)}>
        <div class="field-grid wide">
          <SelectField label={common('quantity')} value={quantity} options={quantities()} onChange={setQuantity} />
          <TextField label={t('least_effort_per_cent')} type="number" value={effort} onChange={setEffort} />
          <TextField label={t('sessions_from')} type="date" value={from} onChange={setFrom} />
          <TextField label={t('sessions_to')} type="date" value={to} onChange={setTo} />
        </div>
        <div class="actions">
          <button type="submit" class="button primary">
            {t('compare_sessions')}
          </button>
        </div>
      </form>
      {fault && <FaultBox fault={fault} />}
      {study && <Result study={study} />}
    </section>
  );
}

function Result({ study }: { study: RepeatabilityStudy }) {
  const digits = study.unit === 'ms' ? 1 : 3;
  const v = (value: number) => formatNumber(value, digits);
  const percent = study.typical_error_percent === null ? '' : ` (${formatNumber(study.typical_error_percent, 1)} %)`;
  return (
    <>
      <p class="headline">
        {t('typical_error_2', { typical_error: v(study.typical_error) })}
        {study.unit === '1' ? '' : study.unit}
        {t('one_athletes_change_beyond_is', { percent, minimal_detectable_change: v(study.minimal_detectable_change) })}
      </p>
      <p class="quiet small">
        {t('to_to_change_of_the', {
          form: study.icc.form,
          value: formatNumber(study.icc.value, 3),
          low: formatNumber(study.icc.low, 3),
          high: formatNumber(study.icc.high, 3),
          model: speech.value.because(study.icc.model),
          form_2: study.icc_consistency.form,
          value_2: formatNumber(study.icc_consistency.value, 3),
          low_2: formatNumber(study.icc_consistency.low, 3),
          high_2: formatNumber(study.icc_consistency.high, 3),
          model_2: speech.value.because(study.icc_consistency.model),
          mean_change: v(study.mean_change),
        })}
        {study.left_out.length > 0 && t('left_out_with_one_session', { left_out: study.left_out.join(', ') })}
      </p>
      <TableScroll label={t('means_of_the_sessions')}>
        <table class="numbers">
          <thead>
            <tr>
              <th scope="col">{common('athlete_2')}</th>
              {Array.from({ length: study.sessions }, (_, k) => (
                <th key={k} scope="col">
                  {t('session', { k: k + 1 })}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {study.athletes.map((athlete) => (
              <tr key={athlete.athlete_id}>
                <th scope="row">{athlete.name}</th>
                {athlete.means.map((value, k) => (
                  <td key={athlete.dates[k]}>
                    {v(value)} <span class="quiet small">({athlete.repetitions[k]})</span>
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </TableScroll>
    </>
  );
}

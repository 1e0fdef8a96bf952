import { useState } from 'preact/hooks';
import { quantityDefinition, REPEATABLE_QUANTITIES } from '../../../shared/coach-quantities.ts';
import type { Fault } from '../../../shared/fault.ts';
import type { RepeatabilityStudy } from '../../../shared/schemas/agreement.ts';
import { client, faultOf } from '../../client.ts';
import { FaultBox } from '../../parts/fault-box.tsx';
import { SelectField } from '../../parts/select-field.tsx';
import { TableScroll } from '../../parts/table-scroll.tsx';
import { TextField } from '../../parts/text-field.tsx';

const QUANTITIES = REPEATABLE_QUANTITIES.map((value) => ({ value, label: quantityDefinition(value)?.label ?? value }));

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
      <h2 id="repeatability">Repeatability</h2>
      <p class="quiet">
        Each athlete's mean of a session is a trial. Choose sessions between which nothing should have changed.
      </p>
      <form class="sheet" onSubmit={(event) => void compare(event)}>
        <div class="field-grid wide">
          <SelectField label="Quantity" value={quantity} options={QUANTITIES} onChange={setQuantity} />
          <TextField label="Least effort, per cent" type="number" value={effort} onChange={setEffort} />
          <TextField label="Sessions from" type="date" value={from} onChange={setFrom} />
          <TextField label="Sessions to" type="date" value={to} onChange={setTo} />
        </div>
        <div class="actions">
          <button type="submit" class="button primary">
            Compare sessions
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
  const v = (value: number) => value.toFixed(digits);
  const percent = study.typical_error_percent === null ? '' : ` (${study.typical_error_percent.toFixed(1)} %)`;
  return (
    <>
      <p class="headline">
        Typical error {v(study.typical_error)} {study.unit === '1' ? '' : study.unit}
        {percent}; one athlete's change beyond {v(study.minimal_detectable_change)} is more than chance.
      </p>
      <p class="quiet small">
        {study.icc.form} {study.icc.value.toFixed(3)} ({study.icc.low.toFixed(3)} to {study.icc.high.toFixed(3)}):{' '}
        {study.icc.model}. {study.icc_consistency.form} {study.icc_consistency.value.toFixed(3)} (
        {study.icc_consistency.low.toFixed(3)} to {study.icc_consistency.high.toFixed(3)}):{' '}
        {study.icc_consistency.model}. Change of the mean {v(study.mean_change)}. Hopkins 2000, Sports Med 30:1-15.
        {study.left_out.length > 0 && ` Left out with one session only: ${study.left_out.join(', ')}.`}
      </p>
      <TableScroll label="Means of the sessions">
        <table class="numbers">
          <thead>
            <tr>
              <th scope="col">athlete</th>
              {Array.from({ length: study.sessions }, (_, k) => (
                <th key={k} scope="col">
                  session {k + 1}
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

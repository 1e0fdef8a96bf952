import { useState } from 'preact/hooks';
import type { Fault } from '../../../shared/fault.ts';
import type { AgreementOrder, AgreementStudy, QuantityAgreement } from '../../../shared/schemas/agreement.ts';
import { client, faultOf } from '../../client.ts';
import { saveFile } from '../../app/save-file.ts';
import { FaultBox } from '../../parts/fault-box.tsx';
import { SelectField } from '../../parts/select-field.tsx';
import { TableScroll } from '../../parts/table-scroll.tsx';
import { RepetitionPicker } from './repetition-picker.tsx';
import { DifferencePlot } from './difference-plot.tsx';
import { RepeatabilitySection } from './repeatability-section.tsx';

const CLOCKS = [
  { value: 'file', label: "the sensor file's clock" },
  { value: 'unrelated', label: 'a clock of its own' },
] as const;

interface Item {
  repetition_id: string;
  file: string;
  reference_csv: string;
}

/** Sensors against a force plate, photocells or video; and against themselves from session to session. */
export default function AgreementPage() {
  const [clock, setClock] = useState<AgreementOrder['reference_clock']>('file');
  const [items, setItems] = useState<Item[]>([]);
  const [study, setStudy] = useState<AgreementStudy | null>(null);
  const [fault, setFault] = useState<Fault | null>(null);
  const order = (): AgreementOrder => ({
    reference_clock: clock,
    items: items.map((item) => ({ repetition_id: Number(item.repetition_id), reference_csv: item.reference_csv })),
  });

  async function add(files: FileList | null) {
    const read = await Promise.all(
      [...(files ?? [])].map(async (file) => ({
        repetition_id: /(\d+)(?=\D*$)/.exec(file.name)?.[1] ?? '',
        file: file.name,
        reference_csv: await file.text(),
      })),
    );
    setItems([...items, ...read]);
  }

  async function compare(event: Event) {
    event.preventDefault();
    try {
      setStudy(await client.post<AgreementStudy>('/agreement', order()));
      setFault(null);
    } catch (error) {
      setStudy(null);
      setFault(faultOf(error));
    }
  }

  return (
    <>
      <h1>Agreement</h1>
      <p class="quiet">
        Bring the contacts that a force plate, photocells or video saw: a CSV a repetition with the columns side,
        touchdown_s, toe_off_s and step_length_m; what the reference does not know stays empty.
      </p>
      <form class="sheet" onSubmit={(event) => void compare(event)}>
        <label class="field spaced">
          <span>Reference files</span>
          <input
            type="file"
            multiple
            accept=".csv,text/csv"
            onChange={(event) => {
              void add(event.currentTarget.files);
              event.currentTarget.value = '';
            }}
          />
        </label>
        <div class="field-grid wide">
          <SelectField label="Reference times run on" value={clock} options={CLOCKS} onChange={setClock} />
        </div>
        {items.map((item, k) => (
          <div key={`${item.file} ${k}`} class="field-grid wide">
            <RepetitionPicker
              name={item.file}
              value={item.repetition_id}
              onChange={(repetition_id) =>
                setItems((old) => old.map((other, i) => (i === k ? { ...other, repetition_id } : other)))
              }
            />
            <button type="button" onClick={() => setItems(items.filter((_, i) => i !== k))}>
              Remove<span class="visually-hidden"> {item.file}</span>
            </button>
          </div>
        ))}
        <div class="actions">
          <button
            type="submit"
            class="button primary"
            disabled={items.length === 0 || items.some((item) => item.repetition_id === '')}
          >
            Compare
          </button>
        </div>
      </form>
      {fault && <FaultBox fault={fault} />}
      {study && <Study study={study} order={order()} />}
      <RepeatabilitySection />
    </>
  );
}

function Study({ study, order }: { study: AgreementStudy; order: AgreementOrder }) {
  const [fault, setFault] = useState<Fault | null>(null);
  const total = (name: 'reference_contacts' | 'matched' | 'missed' | 'extra') =>
    study.recordings.reduce((sum, row) => sum + row[name], 0);
  async function save(form: 'pdf' | 'quantities' | 'pairs') {
    try {
      const file = await client.postForFile(`/agreement/report?form=${form}`, order);
      saveFile(form === 'pdf' ? 'agreement.pdf' : `agreement-${form}.csv`, file);
      setFault(null);
    } catch (error) {
      setFault(faultOf(error));
    }
  }
  return (
    <section aria-labelledby="study">
      <h2 id="study">Result</h2>
      <p class="headline">
        {total('matched')} of {total('reference_contacts')} reference contacts found, {total('missed')} missed,{' '}
        {total('extra')} extra.
      </p>
      <div class="button-row">
        <button type="button" onClick={() => void save('pdf')}>
          Save report (PDF)
        </button>
        <button type="button" onClick={() => void save('quantities')}>
          Save figures (CSV)
        </button>
        <button type="button" onClick={() => void save('pairs')}>
          Save every pair (CSV)
        </button>
      </div>
      {fault && <FaultBox fault={fault} />}
      {study.quantities.map((q) => (
        <QuantityResult key={q.quantity} q={q} study={study} />
      ))}
      {study.notes.map((note) => (
        <p key={note} class="quiet small">
          {note}
        </p>
      ))}
    </section>
  );
}

function QuantityResult({ q, study }: { q: QuantityAgreement; study: AgreementStudy }) {
  const digits = q.unit === 'm' ? 3 : 1;
  const v = (value: number) => value.toFixed(digits);
  const interval = (i: { value: number; low: number; high: number }) => `${v(i.value)} (${v(i.low)} to ${v(i.high)})`;
  const rows: [string, string][] = [
    ['bias (95 % interval)', interval(q.bias)],
    ['standard deviation', v(q.sd)],
    ['limits of agreement', `${interval(q.lower_limit)} and ${interval(q.upper_limit)}`],
    ['mean absolute error', v(q.mean_absolute_error)],
    ['typical error', v(q.typical_error)],
    ...(q.limits_within && q.limits_between
      ? ([
          ["about an athlete's own bias", `${v(q.limits_within.lower)} to ${v(q.limits_within.upper)}`],
          ["athletes' biases", `${v(q.limits_between.lower)} to ${v(q.limits_between.upper)}`],
        ] as [string, string][])
      : []),
    ...[q.icc, q.icc_consistency].flatMap((icc): [string, string][] =>
      icc ? [[icc.form, `${icc.value.toFixed(3)} (${icc.low.toFixed(3)} to ${icc.high.toFixed(3)})`]] : [],
    ),
    ...(q.coverage === null
      ? []
      : ([['stated 95 % intervals hold', `${(100 * q.coverage).toFixed(1)} %`]] as [string, string][])),
  ];
  return (
    <>
      <h3>
        {q.quantity}, {q.unit}
      </h3>
      <p class="quiet small">
        {q.pairs} pairs, {q.athletes} athletes; {q.method}. Differences are ours minus the reference.
      </p>
      <DifferencePlot q={q} pairs={study.pairs.filter((pair) => pair.quantity === q.quantity)} />
      <TableScroll label={`Agreement of ${q.quantity}`}>
        <table class="numbers">
          <tbody>
            {rows.map(([name, value]) => (
              <tr key={name}>
                <th scope="row">{name}</th>
                <td>{value}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </TableScroll>
    </>
  );
}

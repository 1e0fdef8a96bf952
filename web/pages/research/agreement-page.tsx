import { formatNumber } from '../../app/format.ts';
import { labelText, phrasesOf, speech } from '../../app/language.ts';
import { commonWords } from '../../../shared/messages/en/view/common.ts';
import { researchWords } from '../../../shared/messages/en/view/research.ts';
import { useState } from 'preact/hooks';
import type { Fault } from '../../../shared/fault.ts';
import type { AgreementOrder, AgreementStudy, QuantityAgreement } from '../../../shared/schemas/agreement.ts';
import { client, faultOf } from '../../client.ts';
import { saveFile } from '../../app/save-file.ts';
import { FaultBox } from '../../parts/fault-box.tsx';
import { type FigureForm, FigureLinks } from '../../parts/figure-links.tsx';
import { SelectField } from '../../parts/select-field.tsx';
import { TableScroll } from '../../parts/table-scroll.tsx';
import { RepetitionPicker } from './repetition-picker.tsx';
import { DifferencePlot } from './difference-plot.tsx';
import { RepeatabilitySection } from './repeatability-section.tsx';

const t = phrasesOf('research', researchWords);
const common = phrasesOf('common', commonWords);

const clocks = () =>
  [
    { value: 'file', label: t('the_sensor_files_clock') },
    { value: 'unrelated', label: t('a_clock_of_its_own') },
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
      <h1>{t('agreement')}</h1>
      <p class="quiet">{t('bring_the_contacts_that_a')}</p>
      <form class="sheet" onSubmit={(event) => void compare(event)}>
        <label class="field spaced">
          <span>{t('reference_files')}</span>
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
          <SelectField label={t('reference_times_run_on')} value={clock} options={clocks()} onChange={setClock} />
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
              {common('remove')}
              <span class="visually-hidden"> {item.file}</span>
            </button>
          </div>
        ))}
        <div class="actions">
          <button
            type="submit"
            class="button primary"
            disabled={items.length === 0 || items.some((item) => item.repetition_id === '')}
          >
            {common('compare')}
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
  async function saveReport(query: string, name: string) {
    try {
      saveFile(name, await client.postForFile(`/agreement/report?${query}`, order));
      setFault(null);
    } catch (error) {
      setFault(faultOf(error));
    }
  }
  const save = (form: 'pdf' | 'quantities' | 'pairs') =>
    saveReport(`form=${form}`, form === 'pdf' ? 'agreement.pdf' : `agreement-${form}.csv`);
  const saveFigure = (quantity: string, form: FigureForm) =>
    saveReport(
      `form=figure_${form}&quantity=${encodeURIComponent(quantity)}`,
      `agreement-${quantity.replace(/[^a-z0-9]+/gi, '-')}.${form}`,
    );
  return (
    <section aria-labelledby="study">
      <h2 id="study">{common('result')}</h2>
      <p class="headline">
        {t('of_reference_contacts_found_missed', {
          matched: total('matched'),
          reference: total('reference_contacts'),
          missed: total('missed'),
          extra: total('extra'),
        })}
      </p>
      <div class="button-row">
        <button type="button" onClick={() => void save('pdf')}>
          {t('save_report_pdf')}
        </button>
        <button type="button" onClick={() => void save('quantities')}>
          {t('save_figures_csv')}
        </button>
        <button type="button" onClick={() => void save('pairs')}>
          {t('save_every_pair_csv')}
        </button>
      </div>
      {fault && <FaultBox fault={fault} />}
      {study.quantities.map((q) => (
        <QuantityResult key={q.quantity} q={q} study={study} onFigure={(form) => void saveFigure(q.quantity, form)} />
      ))}
      {study.notes.map(speech.value.because).map((note) => (
        <p key={note} class="quiet small">
          {note}
        </p>
      ))}
    </section>
  );
}

interface QuantityResultProps {
  q: QuantityAgreement;
  study: AgreementStudy;
  onFigure: (form: FigureForm) => void;
}

function QuantityResult({ q, study, onFigure }: QuantityResultProps) {
  const digits = q.unit === 'm' ? 3 : 1;
  const v = (value: number) => formatNumber(value, digits);
  const interval = (i: { value: number; low: number; high: number }) =>
    t('to', { value: v(i.value), low: v(i.low), high: v(i.high) });
  const rows: [string, string][] = [
    [t('bias_95_interval'), interval(q.bias)],
    [t('standard_deviation'), v(q.sd)],
    [
      t('limits_of_agreement'),
      t('and', { lower_limit: interval(q.lower_limit), upper_limit: interval(q.upper_limit) }),
    ],
    [t('mean_absolute_error'), v(q.mean_absolute_error)],
    [t('typical_error'), v(q.typical_error)],
    ...(q.limits_within && q.limits_between
      ? ([
          [
            t('about_an_athletes_own_bias'),
            t('to_2', { lower: v(q.limits_within.lower), upper: v(q.limits_within.upper) }),
          ],
          [t('athletes_biases'), t('to_2', { lower: v(q.limits_between.lower), upper: v(q.limits_between.upper) })],
        ] as [string, string][])
      : []),
    ...[q.icc, q.icc_consistency].flatMap((icc): [string, string][] =>
      icc
        ? [
            [
              icc.form,
              t('to', {
                value: formatNumber(icc.value, 3),
                low: formatNumber(icc.low, 3),
                high: formatNumber(icc.high, 3),
              }),
            ],
          ]
        : [],
    ),
    ...(q.coverage === null
      ? []
      : ([[t('stated_95_intervals_hold'), `${formatNumber(100 * q.coverage, 1)} %`]] as [string, string][])),
  ];
  return (
    <>
      <h3>
        {labelText(q.quantity)}, {q.unit}
      </h3>
      <p class="quiet small">
        {t('pairs_athletes_differences_are_ours', {
          pairs: q.pairs,
          athletes: q.athletes,
          method: speech.value.because(q.method),
        })}
      </p>
      <DifferencePlot q={q} pairs={study.pairs.filter((pair) => pair.quantity === q.quantity)} />
      <FigureLinks name={`agreement-${q.quantity}`} onChoose={onFigure} />
      <TableScroll label={t('agreement_of', { quantity: labelText(q.quantity) })}>
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

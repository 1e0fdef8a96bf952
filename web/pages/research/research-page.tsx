import { phrasesOf } from '../../app/language.ts';
import { commonWords } from '../../../shared/messages/en/view/common.ts';
import { researchWords } from '../../../shared/messages/en/view/research.ts';
import { useState } from 'preact/hooks';
import type { Fault } from '../../../shared/fault.ts';
import type { ExportOrder, ResearchConsent, ResearchExport } from '../../../shared/schemas/export.ts';
import { formatDate } from '../../app/format.ts';
import { useResource } from '../../app/use-resource.ts';
import { client, faultOf } from '../../client.ts';
import { FaultBox } from '../../parts/fault-box.tsx';
import { ResourceView } from '../../parts/resource-view.tsx';
import { SelectField } from '../../parts/select-field.tsx';
import { TableScroll } from '../../parts/table-scroll.tsx';
import { TextField } from '../../parts/text-field.tsx';
import { Consents } from './consents.tsx';
import { RetentionSection } from './retention-section.tsx';

const t = phrasesOf('research', researchWords);
const common = phrasesOf('common', commonWords);

/** Who agreed to use in research, what leaves the house, and what left it. */
export default function ResearchPage() {
  const consents = useResource<{ items: ResearchConsent[] }>('/research-consents');
  const exports = useResource<{ items: ResearchExport[] }>('/exports');
  return (
    <>
      <h1>{t('research')}</h1>
      <p class="quiet">
        {t('data_for_studies_every_contact')}
        <a href="#/agreement">{t('agreement')}</a>.
      </p>
      <section aria-labelledby="consent">
        <h2 id="consent">{t('consent_2')}</h2>
        <p class="quiet">{t('only_athletes_whose_consent_is')}</p>
        <ResourceView resource={consents} name={t('consents')}>
          {({ items }) => <Consents items={items} reload={consents.reload} />}
        </ResourceView>
      </section>
      <RetentionSection />
      <NewExport onMade={exports.reload} />
      <section aria-labelledby="made">
        <h2 id="made">{t('exports_made')}</h2>
        <ResourceView resource={exports} name={t('exports')}>
          {({ items }) => <Exports items={items} />}
        </ResourceView>
      </section>
    </>
  );
}

const kinds = () =>
  [
    { value: 'tables', label: t('tables_csv_and_parquet') },
    { value: 'motion_bids', label: t('raw_signals_motion_bids') },
  ] as const;

const levels = () =>
  [
    { value: 'pseudonyms', label: t('pseudonyms_for_partners_under_an') },
    { value: 'open', label: t('open_for_publishing_dates_bodies') },
  ] as const;

function NewExport({ onMade }: { onMade: () => Promise<void> }) {
  const [order, setOrder] = useState<ExportOrder>({ kind: 'tables' });
  const [fault, setFault] = useState<Fault | null>(null);
  const [made, setMade] = useState<ResearchExport | null>(null);
  async function make(event: Event) {
    event.preventDefault();
    try {
      setMade(await client.post<ResearchExport>('/exports', order));
      setFault(null);
      await onMade();
    } catch (error) {
      setMade(null);
      setFault(faultOf(error));
    }
  }
  const check = (field: 'shift_dates' | 'with_free_text' | 'with_names', label: string) => (
    <div>
      <label class="check">
        <input
          type="checkbox"
          checked={order[field] === true}
          onChange={(event) => setOrder({ ...order, [field]: event.currentTarget.checked || undefined })}
        />
        <span>{label}</span>
      </label>
    </div>
  );
  return (
    <section aria-labelledby="new-export">
      <h2 id="new-export">{t('new_export')}</h2>
      <form class="sheet" onSubmit={(event) => void make(event)}>
        <div class="field-grid wide">
          <SelectField
            label={t('what')}
            value={order.kind}
            options={kinds()}
            onChange={(kind) => setOrder({ ...order, kind })}
          />
          <TextField
            label={common('from')}
            type="date"
            value={order.from ?? ''}
            onChange={(from) => setOrder({ ...order, from: from || undefined })}
          />
          <TextField
            label={common('to')}
            type="date"
            value={order.to ?? ''}
            onChange={(to) => setOrder({ ...order, to: to || undefined })}
          />
        </div>
        <SelectField
          label={t('level')}
          value={order.level ?? 'pseudonyms'}
          options={levels()}
          onChange={(level) => setOrder({ ...order, level })}
        />
        {check('shift_dates', t('move_each_athletes_dates_by'))}
        {check('with_free_text', t('with_notes_and_titles_as'))}
        {check('with_names', t('with_names_instead_of_pseudonyms'))}
        <div class="actions">
          <button type="submit" class="button primary">
            {t('make_export')}
          </button>
        </div>
      </form>
      {fault && <FaultBox fault={fault} />}
      {made && (
        <p role="status">
          {t('athletes_repetitions_contacts', {
            athletes: made.athletes,
            repetitions: made.repetitions,
            contacts: made.contacts,
          })}
          {made.left_out > 0 && t('athletes_without_consent_left_out', { left_out: made.left_out })}.{' '}
          <a href={archive(made)} download>
            {t('save_the_archive')}
          </a>
        </p>
      )}
    </section>
  );
}

function Exports({ items }: { items: ResearchExport[] }) {
  if (items.length === 0) return <p class="quiet">{t('none_yet_each_one_is')}</p>;
  return (
    <TableScroll label={t('exports_made')}>
      <table class="numbers">
        <thead>
          <tr>
            <th scope="col">{t('made')}</th>
            <th scope="col">{common('what')}</th>
            <th scope="col">{common('athletes')}</th>
            <th scope="col">{common('repetitions_3')}</th>
            <th scope="col">{t('contacts')}</th>
            <th scope="col">{t('archive')}</th>
          </tr>
        </thead>
        <tbody>
          {items.map((made) => (
            <tr key={made.export_id}>
              <th scope="row">{formatDate(made.created_utc)}</th>
              <td>{made.order.kind === 'tables' ? t('tables') : 'Motion-BIDS'}</td>
              <td>{made.athletes}</td>
              <td>{made.repetitions}</td>
              <td>{made.contacts}</td>
              <td>
                <a href={archive(made)} download>
                  {common('save')}
                  <span class="visually-hidden">{t('export', { export_id: made.export_id })}</span>
                </a>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </TableScroll>
  );
}

function archive(made: ResearchExport): string {
  return `/api/exports/${made.export_id}/archive`;
}

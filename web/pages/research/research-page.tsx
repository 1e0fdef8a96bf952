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

/** Who agreed to use in research, what leaves the house, and what left it. */
export default function ResearchPage() {
  const consents = useResource<{ items: ResearchConsent[] }>('/research-consents');
  const exports = useResource<{ items: ResearchExport[] }>('/exports');
  return (
    <>
      <h1>Research</h1>
      <p class="quiet">
        Data for studies: every contact with its uncertainty, documented, under pseudonyms. Check sensors against a
        force plate under <a href="#/agreement">Agreement</a>.
      </p>
      <section aria-labelledby="consent">
        <h2 id="consent">Consent</h2>
        <p class="quiet">
          Only athletes whose consent is given are exported. For minors a responsible adult decides as well; local rules
          come first.
        </p>
        <ResourceView resource={consents} name="consents">
          {({ items }) => <Consents items={items} reload={consents.reload} />}
        </ResourceView>
      </section>
      <RetentionSection />
      <NewExport onMade={exports.reload} />
      <section aria-labelledby="made">
        <h2 id="made">Exports made</h2>
        <ResourceView resource={exports} name="exports">
          {({ items }) => <Exports items={items} />}
        </ResourceView>
      </section>
    </>
  );
}

const KINDS = [
  { value: 'tables', label: 'tables (CSV and Parquet)' },
  { value: 'motion_bids', label: 'raw signals (Motion-BIDS)' },
] as const;

const LEVELS = [
  { value: 'pseudonyms', label: 'pseudonyms: for partners under an agreement' },
  { value: 'open', label: 'open: for publishing; dates, bodies and weather cannot be told' },
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
      <h2 id="new-export">New export</h2>
      <form class="sheet" onSubmit={(event) => void make(event)}>
        <div class="field-grid wide">
          <SelectField
            label="What"
            value={order.kind}
            options={KINDS}
            onChange={(kind) => setOrder({ ...order, kind })}
          />
          <TextField
            label="From"
            type="date"
            value={order.from ?? ''}
            onChange={(from) => setOrder({ ...order, from: from || undefined })}
          />
          <TextField
            label="To"
            type="date"
            value={order.to ?? ''}
            onChange={(to) => setOrder({ ...order, to: to || undefined })}
          />
        </div>
        <SelectField
          label="Level"
          value={order.level ?? 'pseudonyms'}
          options={LEVELS}
          onChange={(level) => setOrder({ ...order, level })}
        />
        {check('shift_dates', "Move each athlete's dates by an amount of their own")}
        {check('with_free_text', 'With notes and titles as written; they may name people')}
        {check('with_names', 'With names instead of pseudonyms: for use inside the club only')}
        <div class="actions">
          <button type="submit" class="button primary">
            Make export
          </button>
        </div>
      </form>
      {fault && <FaultBox fault={fault} />}
      {made && (
        <p role="status">
          {made.athletes} athletes, {made.repetitions} repetitions, {made.contacts} contacts
          {made.left_out > 0 && `; ${made.left_out} athletes without consent left out`}.{' '}
          <a href={archive(made)} download>
            Save the archive
          </a>
        </p>
      )}
    </section>
  );
}

function Exports({ items }: { items: ResearchExport[] }) {
  if (items.length === 0) return <p class="quiet">None yet. Each one is recorded here: what, when, how much.</p>;
  return (
    <TableScroll label="Exports made">
      <table class="numbers">
        <thead>
          <tr>
            <th scope="col">made</th>
            <th scope="col">what</th>
            <th scope="col">athletes</th>
            <th scope="col">repetitions</th>
            <th scope="col">contacts</th>
            <th scope="col">archive</th>
          </tr>
        </thead>
        <tbody>
          {items.map((made) => (
            <tr key={made.export_id}>
              <th scope="row">{formatDate(made.created_utc)}</th>
              <td>{made.order.kind === 'tables' ? 'tables' : 'Motion-BIDS'}</td>
              <td>{made.athletes}</td>
              <td>{made.repetitions}</td>
              <td>{made.contacts}</td>
              <td>
                <a href={archive(made)} download>
                  Save<span class="visually-hidden"> export {made.export_id}</span>
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

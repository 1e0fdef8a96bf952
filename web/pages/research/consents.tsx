import { useState } from 'preact/hooks';
import type { Fault } from '../../../shared/fault.ts';
import type { ConsentChange, ResearchConsent } from '../../../shared/schemas/export.ts';
import { formatDate, localToday } from '../../app/format.ts';
import { client, faultOf } from '../../client.ts';
import { EmptyState } from '../../parts/empty-state.tsx';
import { FaultBox } from '../../parts/fault-box.tsx';
import { SelectField } from '../../parts/select-field.tsx';
import { TextField } from '../../parts/text-field.tsx';

const STATUSES = [
  { value: 'unknown', label: 'not asked' },
  { value: 'given', label: 'given' },
  { value: 'refused', label: 'refused' },
  { value: 'withdrawn', label: 'withdrawn' },
] as const;
const BASES = [
  { value: '', label: 'not recorded' },
  { value: 'consent', label: 'consent' },
  { value: 'contract', label: 'contract' },
  { value: 'public_interest', label: 'task in the public interest' },
  { value: 'legitimate_interest', label: 'legitimate interest' },
] as const;

/** Who agreed to use in research, on what ground, and who decided for a minor. */
export function Consents({ items, reload }: { items: ResearchConsent[]; reload: () => Promise<void> }) {
  const [fault, setFault] = useState<Fault | null>(null);
  async function change(consent: ResearchConsent, part: Partial<ConsentChange>) {
    const { status, note, legal_basis, guardian } = consent;
    const body: ConsentChange = { status, status_date: localToday(), note, legal_basis, guardian, ...part };
    try {
      await client.put(`/athletes/${consent.athlete_id}/research-consent`, body);
      setFault(null);
      await reload();
    } catch (error) {
      setFault(faultOf(error));
    }
  }
  if (items.length === 0) {
    return (
      <EmptyState title="No athletes yet">
        <p>
          Add them under <a href="#/athletes">Athletes</a>.
        </p>
      </EmptyState>
    );
  }
  return (
    <>
      {fault && <FaultBox fault={fault} />}
      <ul class="lines">
        {items.map((consent) => (
          <li key={consent.athlete_id}>
            <div class="line consent-line">
              <span class="line-main">
                <strong>{consent.name}</strong>
                <span class="quiet">{standing(consent)}</span>
              </span>
              <SelectField
                label={`Consent of ${consent.name}`}
                quiet
                value={consent.status}
                options={STATUSES}
                onChange={(status) => void change(consent, { status })}
              />
            </div>
            <Ground consent={consent} onChange={(part) => change(consent, part)} />
          </li>
        ))}
      </ul>
    </>
  );
}

function standing({ status_date, guardian, guardian_missing }: ResearchConsent): string {
  const since = status_date ? `since ${formatDate(status_date)}` : 'nothing recorded';
  if (guardian_missing) return `${since}; a minor: who has parental responsibility is not recorded`;
  return guardian ? `${since}; decided by ${guardian}` : since;
}

interface GroundProps {
  consent: ResearchConsent;
  onChange: (part: Partial<ConsentChange>) => Promise<void>;
}

/** Legal basis and guardian, out of the way until wanted. */
function Ground({ consent, onChange }: GroundProps) {
  const [guardian, setGuardian] = useState(consent.guardian);
  return (
    <details>
      <summary>
        Legal basis and guardian<span class="visually-hidden"> of {consent.name}</span>
      </summary>
      <form
        class="field-grid"
        onSubmit={(event) => {
          event.preventDefault();
          void onChange({ guardian: guardian.trim() });
        }}
      >
        <SelectField
          label="Legal basis"
          value={consent.legal_basis ?? ''}
          options={BASES}
          onChange={(basis) => void onChange({ legal_basis: basis === '' ? null : basis })}
        />
        <TextField
          label="Guardian who decided"
          value={guardian}
          onChange={setGuardian}
          help="For minors. Local law says from what age on they decide themselves."
        />
        <div class="actions">
          <button type="submit" class="button" disabled={guardian.trim() === consent.guardian}>
            Save guardian
          </button>
        </div>
      </form>
    </details>
  );
}

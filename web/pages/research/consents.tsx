import { phrasesOf } from '../../app/language.ts';
import { commonWords } from '../../../shared/messages/en/view/common.ts';
import { researchWords } from '../../../shared/messages/en/view/research.ts';
import { useState } from 'preact/hooks';
import type { Fault } from '../../../shared/fault.ts';
import type { ConsentChange, ResearchConsent } from '../../../shared/schemas/export.ts';
import { formatDate, localToday } from '../../app/format.ts';
import { client, faultOf } from '../../client.ts';
import { EmptyState } from '../../parts/empty-state.tsx';
import { FaultBox } from '../../parts/fault-box.tsx';
import { SelectField } from '../../parts/select-field.tsx';
import { TextField } from '../../parts/text-field.tsx';

const t = phrasesOf('research', researchWords);
const common = phrasesOf('common', commonWords);

const statuses = () =>
  [
    { value: 'unknown', label: t('not_asked') },
    { value: 'given', label: t('given') },
    { value: 'refused', label: t('refused') },
    { value: 'withdrawn', label: t('withdrawn') },
  ] as const;
const bases = () =>
  [
    { value: '', label: t('not_recorded') },
    { value: 'consent', label: t('consent') },
    { value: 'contract', label: t('contract') },
    { value: 'public_interest', label: t('task_in_the_public_interest') },
    { value: 'legitimate_interest', label: t('legitimate_interest') },
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
      <EmptyState title={common('no_athletes_yet')}>
        <p>
          {t('add_them_under')}
          <a href="#/athletes">{common('page_Athletes')}</a>.
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
                label={t('consent_of', { name: consent.name })}
                quiet
                value={consent.status}
                options={statuses()}
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
  const since = status_date ? t('since', { status_date: formatDate(status_date) }) : t('nothing_recorded');
  if (guardian_missing) return t('a_minor_who_has_parental', { since });
  return guardian ? t('decided_by', { since, guardian }) : since;
}

interface GroundProps {
  consent: ResearchConsent;
  onChange: (part: Partial<ConsentChange>) => Promise<void>;
}

/** Legal basis and guardian, out of the way until wanted. */
function Ground({ consent, onChange }: GroundProps) {
  const [guardian, setGuardian] = useState(consent.guardian);
  return (
    <details class="consent-ground">
      <summary>
        {t('legal_basis_and_guardian')}
        <span class="visually-hidden">{t('of', { name: consent.name })}</span>
      </summary>
      <form
        class="field-grid"
        onSubmit={(event) => {
          event.preventDefault();
          void onChange({ guardian: guardian.trim() });
        }}
      >
        <SelectField
          label={t('legal_basis')}
          value={consent.legal_basis ?? ''}
          options={bases()}
          onChange={(basis) => void onChange({ legal_basis: basis === '' ? null : basis })}
        />
        <TextField
          label={t('guardian_who_decided')}
          value={guardian}
          onChange={setGuardian}
          help={t('for_minors_local_law_says')}
        />
        <div class="actions">
          <button type="submit" class="button" disabled={guardian.trim() === consent.guardian}>
            {t('save_guardian')}
          </button>
        </div>
      </form>
    </details>
  );
}

import { repetitionWords } from '../../../shared/messages/en/view/repetition.ts';
import { phrasesOf } from '../../app/language.ts';
import { useState } from 'preact/hooks';
import type { Contact, ContactQuantity, RepetitionResult } from '../../../shared/analysis.ts';
import { PROFILE_QUANTITIES, type ProfileQuantity } from '../../../shared/fields.ts';
import type { RepetitionProfile } from '../../../shared/schemas/repetition.ts';
import { paths } from '../../api.ts';
import { displayOf } from '../../app/format.ts';
import { setQuery } from '../../app/router.ts';
import { Choice } from '../../parts/choice.tsx';
import { FigureLinks } from '../../parts/figure-links.tsx';
import { Glossary } from '../../parts/glossary.tsx';
import { ContactsTable } from '../../parts/contacts-table.tsx';
import { Legend, LegendBand, LegendBeyond, LegendEarlier, LegendSide } from '../../parts/plot/legend.tsx';
import type { BandPoint } from '../../parts/plot/marks.tsx';
import { contactAt, isBeyond, type ProfileAxis, ProfilePlot, sayContact } from '../../parts/profile-plot.tsx';
import { SIDES } from '../../../shared/words.ts';
import { DETAIL_QUANTITIES, TABLE_QUANTITIES } from './quantities.ts';
import { reasonFor } from './repetition-figures.tsx';

const t = phrasesOf('repetition', repetitionWords);

interface StrideProfileProps {
  result: RepetitionResult;
  /** Null while it is being read. */
  profile: RepetitionProfile | null;
  query: URLSearchParams;
  selected: number | null;
  onSelect: (step: number) => void;
  repetition_id: number;
  /** The day's repetitions of the same effort and course. */
  comparable: Set<number>;
}

/** A quantity by step or by distance over the athlete's normal variation, with the same numbers as a table beside it. */
export function StrideProfile({
  result,
  profile,
  query,
  selected,
  onSelect,
  repetition_id,
  comparable,
}: StrideProfileProps) {
  const [detailed, setDetailed] = useState(false);
  const withRunOut = query.get('run_out') === 'yes';
  const onCourse = result.contacts.filter((contact) => !isAfterCourse(contact, result));
  const contacts = withRunOut ? result.contacts : onCourse;
  const quantity = quantityOf(query.get('quantity'), result);
  const hasDistance = contacts.some((contact) => contact.distance_m !== null);
  const by: ProfileAxis = query.get('by') === 'distance' && hasDistance ? 'distance' : 'step';
  const bandOf = (which: ContactQuantity): BandPoint[] =>
    profile?.baseline.quantities[which]?.[by === 'step' ? 'by_step' : 'by_distance'] ?? [];
  const band = bandOf(quantity);
  const relative = query.get('as') === 'difference' && band.length > 0;
  const earlier = (profile?.earlier_today ?? []).filter((other) => comparable.has(other.repetition_id));
  const measured = contacts.some((contact) => contact[quantity] !== null);
  const chosen = contacts.find((contact) => contact.step === selected);
  const columns: ContactQuantity[] = detailed ? [...TABLE_QUANTITIES, ...DETAIL_QUANTITIES] : [...TABLE_QUANTITIES];
  const anyBeyond = contacts.some((contact) => isBeyond(contact, quantity, contactAt(contact, by), band));

  return (
    <section aria-labelledby="profile-head">
      <h2 id="profile-head">{t('stride_profile')}</h2>
      <div class="controls no-print">
        <Choice
          legend={t('quantity')}
          quiet
          value={quantity}
          options={PROFILE_QUANTITIES.map((value) => ({ value, label: displayOf(value).label }))}
          onChange={(value) => setQuery('quantity', value)}
        />
        <Choice
          legend={t('along')}
          quiet
          value={by}
          options={[
            { value: 'step', label: t('by_step') },
            { value: 'distance', label: t('by_distance'), disabled: !hasDistance },
          ]}
          onChange={(value) => setQuery('by', value === 'step' ? null : value)}
        />
        {band.length > 0 && (
          <Choice
            legend={t('shown_as')}
            quiet
            value={relative ? 'difference' : 'measured'}
            options={[
              { value: 'measured', label: t('as_measured') },
              { value: 'difference', label: t('against_normal') },
            ]}
            onChange={(value) => setQuery('as', value === 'measured' ? null : value)}
          />
        )}
        {onCourse.length < result.contacts.length && (
          <label class="check">
            <input
              type="checkbox"
              checked={withRunOut}
              onChange={(event) => setQuery('run_out', event.currentTarget.checked ? 'yes' : null)}
            />
            {t('with_run_out')}
          </label>
        )}
      </div>
      {!hasDistance && <p class="small quiet">{t('no_distance', { reason: reasonFor(result, 'distance_m') ?? '' })}</p>}
      <div class="plot-beside-table">
        <div class="sheet">
          <Legend>
            {SIDES.filter((side) => contacts.some((contact) => contact.side === side)).map((side) => (
              <LegendSide key={side} side={side} />
            ))}
            {band.length > 0 && <LegendBand text={bandWords(profile)} />}
            {earlier.length > 0 && <LegendEarlier text={t('earlier_alike', { n: earlier.length })} />}
            {anyBeyond && <LegendBeyond />}
          </Legend>
          {measured ? (
            <ProfilePlot
              height={360}
              quantity={quantity}
              by={by}
              contacts={contacts}
              courseEnd_s={result.course_end_s}
              band={band}
              relative={relative}
              earlier={earlier.map((repetition) => repetition.contacts)}
              selected={selected}
              onSelect={onSelect}
            />
          ) : (
            <p class="not-measurable">
              {t('not_measurable_here', {
                quantity: displayOf(quantity).label,
                reason: reasonFor(result, quantity) ?? '',
              })}
            </p>
          )}
          <p class={`readout${chosen ? '' : ' is-hint'}`} aria-live="polite">
            {chosen ? sayContact(chosen, quantity, by, band) : t('tap_a_step')}
          </p>
          {measured && (
            <FigureLinks
              name={`repetition-${repetition_id}-${quantity}`}
              href={(form) => paths.figure(repetition_id, quantity, by, form)}
            />
          )}
        </div>
        <div>
          <ContactsTable
            caption={t('every_contact')}
            contacts={contacts}
            quantities={columns}
            selected={selected}
            onSelect={onSelect}
            beyond={(contact: Contact, which) =>
              !isAfterCourse(contact, result) && isBeyond(contact, which, contactAt(contact, by), bandOf(which))
            }
          />
          <details class="no-print">
            <summary>{t('what_words_mean')}</summary>
            <Glossary quantities={columns} />
          </details>
          <p class="actions no-print">
            <button type="button" aria-pressed={detailed} onClick={() => setDetailed(!detailed)}>
              {detailed ? t('fewer_columns') : t('all_columns')}
            </button>
            <a class="button" href={paths.stepsCsv(repetition_id)} download={`repetition-${repetition_id}-steps.csv`}>
              {t('save_csv')}
            </a>
          </p>
        </div>
      </div>
    </section>
  );
}

/** True for what comes after the finish line: slowing is no part of the repetition's profile. */
function isAfterCourse(contact: Contact, result: RepetitionResult): boolean {
  return result.course_end_s !== null && contact.touchdown_s > result.course_end_s;
}

/** The one asked for; else the first that was measured. */
function quantityOf(text: string | null, { contacts }: RepetitionResult): ProfileQuantity {
  const measured = (quantity: ProfileQuantity) => contacts.some((contact) => contact[quantity] !== null);
  return (
    PROFILE_QUANTITIES.find((quantity) => quantity === text) ?? PROFILE_QUANTITIES.find(measured) ?? 'contact_time_ms'
  );
}

function bandWords(profile: RepetitionProfile | null): string {
  const baseline = profile?.baseline;
  if (!baseline) return t('normal_variation');
  return t('normal_variation_of', { n: baseline.n, provisional: baseline.provisional });
}

import { commonWords } from '../../shared/messages/en/view/common.ts';
import { repetitionWords } from '../../shared/messages/en/view/repetition.ts';
import { speech, phrasesOf } from '../app/language.ts';
import { useEffect, useRef } from 'preact/hooks';
import type { Contact, ContactQuantity } from '../../shared/analysis.ts';
import { uncertaintyOf } from '../../shared/fields.ts';
import { displayOf, formatNumber } from '../app/format.ts';
import { TableScroll } from './table-scroll.tsx';

const common = phrasesOf('common', commonWords);

const t = phrasesOf('repetition', repetitionWords);

interface ContactsTableProps {
  caption: string;
  contacts: Contact[];
  quantities: ContactQuantity[];
  selected: number | null;
  onSelect: (step: number) => void;
  /** Marks a value beyond normal variation. */
  beyond?: (contact: Contact, quantity: ContactQuantity) => boolean;
}

/** One row a contact. A column nobody could measure is left out and its reason said once, below. */
export function ContactsTable({ caption, contacts, quantities, selected, onSelect, beyond }: ContactsTableProps) {
  const body = useRef<HTMLTableSectionElement>(null);
  const scroller = useRef<HTMLElement>(null);
  useEffect(() => {
    const row = body.current?.querySelector<HTMLElement>('.selected');
    const box = scroller.current;
    if (!row || !box) return;
    const top = row.offsetTop - box.clientHeight / 2;
    if (row.offsetTop < box.scrollTop + 40 || row.offsetTop + row.offsetHeight > box.scrollTop + box.clientHeight) {
      box.scrollTop = Math.max(0, top);
    }
  }, [selected]);

  const measured = quantities.filter((quantity) => contacts.some((contact) => contact[quantity] !== null));
  const absent = quantities.filter((quantity) => !measured.includes(quantity));
  const doubts = doubtsOf(contacts, measured);

  return (
    <div class="table-part">
      <TableScroll label={caption} scroller={scroller}>
        <table class="numbers">
          <caption class="visually-hidden">{caption}</caption>
          <thead>
            <tr>
              <th scope="col">{t('step')}</th>
              <th scope="col" class="word">
                {t('side')}
              </th>
              {measured.map((quantity) => {
                const { label, unit, definition } = displayOf(quantity);
                return (
                  <th scope="col" key={quantity} title={definition}>
                    {label}
                    {unit && <span class="unit">{unit}</span>}
                  </th>
                );
              })}
              <th scope="col" class="word">
                {t('phase')}
              </th>
            </tr>
          </thead>
          <tbody ref={body}>
            {contacts.map((contact) => (
              <tr
                key={contact.step}
                class={contact.step === selected ? 'selected' : undefined}
                onClick={() => onSelect(contact.step)}
              >
                <th scope="row">{contact.step}</th>
                <td class={`side ${contact.side}`}>
                  {common(contact.side === 'unknown' ? 'side_unknown' : contact.side)}
                </td>
                {measured.map((quantity) => (
                  <Cell
                    key={quantity}
                    contact={contact}
                    quantity={quantity}
                    note={doubts.indexOf(speech.value.because(contact.reasons[quantity] ?? '')) + 1}
                    beyond={beyond?.(contact, quantity) ?? false}
                  />
                ))}
                <td class="word">{contact.phase ? t(PHASE_WORDS[contact.phase]) : '–'}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </TableScroll>
      {doubts.length > 0 && (
        <ol class="table-notes">
          {doubts.map((doubt) => (
            <li key={doubt}>{doubt}</li>
          ))}
        </ol>
      )}
      {measured.map((quantity) => {
        const wide = contacts.find((contact) => contact.reasons[`${quantity}_u`])?.reasons[`${quantity}_u`];
        return (
          wide && (
            <p class="small" key={quantity}>
              <strong>{displayOf(quantity).label}</strong>
              {t('why_wide', { reason: speech.value.because(wide) })}
            </p>
          )
        );
      })}
      {absentByReason(contacts, absent).map(([reason, labels]) => (
        <p class="small" key={reason}>
          <strong>{t('not_measurable_list')}</strong> {labels.join(', ')}
          {reason && `: ${reason}`}.
        </p>
      ))}
    </div>
  );
}

const PHASE_WORDS = {
  acceleration: 'phase_acceleration',
  transition: 'phase_transition',
  'maximum speed': 'phase_maximum_speed',
  slowing: 'phase_slowing',
} as const;

interface CellProps {
  contact: Contact;
  quantity: ContactQuantity;
  /** Number of the note that says why; 0 for none. */
  note: number;
  beyond: boolean;
}

function Cell({ contact, quantity, note, beyond }: CellProps) {
  const { decimals, factor } = displayOf(quantity);
  const value = contact[quantity];
  const u = uncertaintyOf(contact, quantity);
  return (
    <td class={beyond ? 'beyond' : undefined}>
      {formatNumber(value === null ? null : value * factor, decimals)}
      {value !== null && u && quantity !== 'distance_m' ? (
        <span class="half"> ± {formatNumber(1.96 * u * factor, decimals)}</span>
      ) : null}
      {note > 0 && <sup>{note}</sup>}
      {beyond && <span class="visually-hidden"> {common('beyond_normal_variation')}</span>}
    </td>
  );
}

/** Labels of the columns nobody could measure, by the reason given for them; those without a reason last. */
function absentByReason(contacts: Contact[], absent: ContactQuantity[]): [string, string[]][] {
  const groups = new Map<string, string[]>();
  for (const quantity of absent) {
    const given = contacts.find((contact) => contact.reasons[quantity])?.reasons[quantity] ?? '';
    const reason = speech.value.because(given);
    groups.set(reason, [...(groups.get(reason) ?? []), displayOf(quantity).label]);
  }
  return [...groups].sort(([a], [b]) => Number(a === '') - Number(b === ''));
}

/** The distinct reasons given beside measured columns, in order of appearance. */
function doubtsOf(contacts: Contact[], quantities: ContactQuantity[]): string[] {
  const doubts = new Set<string>();
  for (const contact of contacts) {
    for (const quantity of quantities) {
      const reason = contact.reasons[quantity];
      if (reason) doubts.add(speech.value.because(reason));
    }
  }
  return [...doubts];
}

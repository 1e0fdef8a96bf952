import { phrasesOf } from '../../app/language.ts';
import { liveWords } from '../../../shared/messages/en/view/live.ts';
import type { LiveContact } from '../../../shared/schemas/capture.ts';
import { SIDES } from '../../../shared/words.ts';
import { PlotFrame } from '../../parts/plot/frame.tsx';
import { SideSeries } from '../../parts/plot/marks.tsx';

const t = phrasesOf('live', liveWords);

const LEAST_STEPS = 12;

/** Contact time of each step, left and right apart, as the contacts come. */
export function ContactsPlot({ contacts, height = 220 }: { contacts: LiveContact[]; height?: number }) {
  const points = contacts.map((contact, i) => ({ side: contact.side, x: i + 1, y: contact.contact_time_ms }));
  const values = points.flatMap((point) => (point.y === null ? [] : [point.y]));
  const low = Math.min(80, ...values);
  const high = Math.max(200, ...values);
  const last = Math.max(LEAST_STEPS, points.length);
  return (
    <PlotFrame
      description={t('contact_time_of_contacts', { n_contacts: contacts.length })}
      height={height}
      x={{ min: 0.4, max: last + 0.6, label: t('step'), ticks: Array.from({ length: last }, (_, i) => i + 1) }}
      y={{ min: low - 10, max: high + 10, label: t('contact_time_ms') }}
    >
      {(area) => (
        <>
          {SIDES.map((side) => (
            <SideSeries key={side} side={side} points={points.filter((point) => point.side === side)} area={area} />
          ))}
        </>
      )}
    </PlotFrame>
  );
}

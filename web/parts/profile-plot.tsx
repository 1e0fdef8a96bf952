import { commonWords } from '../../shared/messages/en/view/common.ts';
import { repetitionWords } from '../../shared/messages/en/view/repetition.ts';
import { phrasesOf } from '../app/language.ts';
import type { Contact, ContactQuantity } from '../../shared/analysis.ts';
import { CONTACT_FIELDS, type ContactField, uncertaintyOf } from '../../shared/fields.ts';
import { SIDES } from '../../shared/words.ts';
import { type Display, displayOf, formatNumber, formatQuantity } from '../app/format.ts';
import { bandAt } from './plot/band-at.ts';
import { type Axis, PlotFrame } from './plot/frame.tsx';
import { Band, type BandPoint, linePath, SideSeries } from './plot/marks.tsx';
import { rangeOf } from './plot/scale.ts';

const common = phrasesOf('common', commonWords);

const t = phrasesOf('repetition', repetitionWords);

export type ProfileAxis = 'step' | 'distance';

export interface ProfilePlotProps {
  quantity: ContactQuantity;
  by: ProfileAxis;
  contacts: Contact[];
  /** Contacts after this instant are drawn but never flagged. */
  courseEnd_s?: number | null;
  /** Normal variation along the repetition; empty when there is none yet. */
  band: BandPoint[];
  /** Draws the difference from the centre of normal, so that small differences show beside a large rise. */
  relative?: boolean;
  /** Earlier repetitions, faint behind. */
  earlier: Contact[][];
  /** Step number under the cursor. */
  selected: number | null;
  onSelect: (step: number) => void;
  height?: number;
}

/** Where a contact stands on the x axis; null when its distance is unknown. */
export function contactAt(contact: Contact, by: ProfileAxis): number | null {
  return by === 'step' ? contact.step : contact.distance_m;
}

/** A quantity along one repetition: left and right apart, over normal variation, earlier repetitions behind. */
export function ProfilePlot(props: ProfilePlotProps) {
  const {
    quantity,
    by,
    contacts,
    courseEnd_s = null,
    band,
    relative = false,
    earlier,
    selected,
    onSelect,
    height,
  } = props;
  const display = displayOf(quantity);
  const field: ContactField = CONTACT_FIELDS[quantity];
  const distance = displayOf('distance_m');
  const xFactor = by === 'step' ? 1 : distance.factor;

  const place = (contact: Contact) => {
    const at = contactAt(contact, by);
    if (at === null) return null;
    const centre = relative ? bandAt(band, at)?.centre : 0;
    const value = centre === undefined || contact[quantity] === null ? null : contact[quantity] - centre;
    const u = uncertaintyOf(contact, quantity);
    return {
      contact,
      x: at * xFactor,
      y: value === null ? null : value * display.factor,
      half: u ? 1.96 * u * display.factor : null,
      beyond: (courseEnd_s === null || contact.touchdown_s <= courseEnd_s) && isBeyond(contact, quantity, at, band),
    };
  };
  const placed = contacts.map(place).filter((point) => point !== null);
  const stops = placed.filter((point) => point.y !== null);
  const last = Math.max(by === 'step' ? 2 : 1, ...placed.map((point) => point.x));
  const x: Axis =
    by === 'step'
      ? { min: 0.4, max: last + 0.6, label: t('step'), ticks: Array.from({ length: last }, (_, index) => index + 1) }
      : {
          min: Math.min(0, ...placed.map((point) => point.x)),
          max: last * 1.02,
          label: common('distance_2', { unit: distance.unit }),
        };
  const shownBand = band
    .map((point) => {
      const base = relative ? point.centre : 0;
      return {
        at: point.at * xFactor,
        centre: (point.centre - base) * display.factor,
        low: (point.low - base) * display.factor,
        high: (point.high - base) * display.factor,
        flag_from: point.flag_from * display.factor,
      };
    })
    .filter((point) => point.at >= x.min && point.at <= x.max);
  const behind = earlier.map((list) =>
    list.flatMap((contact) => {
      const point = place(contact);
      return point && point.x >= x.min && point.x <= x.max ? [point] : [];
    }),
  );
  const [yMin, yMax] = rangeOf(
    [
      ...[...placed, ...behind.flat()].map((point) => point.y),
      ...placed.flatMap((point) =>
        point.y !== null && point.half ? [point.y - point.half, point.y + point.half] : [],
      ),
      ...shownBand.flatMap((point) => [point.centre - point.flag_from, point.centre + point.flag_from]),
    ],
    (field.least_span ?? 0.001) * display.factor,
  );
  const cursor = stops.findIndex((point) => point.contact.step === selected);

  return (
    <PlotFrame
      description={`${display.label}, ${t(by === 'step' ? 'by_step' : 'by_distance')}`}
      height={height}
      x={x}
      y={{ min: yMin, max: yMax, label: axisLabel(display, relative) }}
      explore={{
        count: stops.length,
        index: cursor < 0 ? null : cursor,
        xs: stops.map((point) => point.x),
        text: (index) => sayContact(stops[index].contact, quantity, by, band),
        onMove: (index) => onSelect(stops[index].contact.step),
      }}
    >
      {(area) => (
        <>
          <Band points={shownBand} area={area} />
          {behind.map((points, index) => (
            <path key={index} class="earlier" d={linePath(points, area)} />
          ))}
          {cursor >= 0 && (
            <line
              class="cursor"
              x1={area.x(stops[cursor].x)}
              x2={area.x(stops[cursor].x)}
              y1={area.top}
              y2={area.bottom}
            />
          )}
          {SIDES.map((side) => (
            <SideSeries
              key={side}
              side={side}
              points={placed.filter((point) => point.contact.side === side)}
              area={area}
            />
          ))}
        </>
      )}
    </PlotFrame>
  );
}

function axisLabel({ label, unit }: Display, relative: boolean): string {
  return `${relative ? t('from_normal') : label}${unit ? ` (${unit})` : ''}`;
}

/**
 * True when a contact's value is further from normal than chance and its own measuring error explain together; false where
 * there is no band.
 */
export function isBeyond(contact: Contact, quantity: ContactQuantity, at: number | null, band: BandPoint[]): boolean {
  const value = contact[quantity];
  const there = at === null ? null : bandAt(band, at);
  if (value === null || there === null) return false;
  const u = uncertaintyOf(contact, quantity) ?? 0;
  return Math.abs(value - there.centre) > Math.hypot(there.flag_from, 1.96 * u);
}

/** One contact in words: `step 7, right: contact time 112 ± 4 ms; normal 104 to 118`. */
export function sayContact(contact: Contact, quantity: ContactQuantity, by: ProfileAxis, band: BandPoint[]): string {
  const { label, decimals, factor } = displayOf(quantity);
  const value = contact[quantity];
  const u = uncertaintyOf(contact, quantity);
  const distance =
    contact.distance_m === null ? '' : t('at_distance', { distance: formatQuantity('distance_m', contact.distance_m) });
  const at = contactAt(contact, by);
  const there = at === null ? null : bandAt(band, at);
  const normal = there
    ? t('normal_there', {
        low: formatNumber(there.low * factor, decimals),
        high: formatNumber(there.high * factor, decimals),
      })
    : '';
  const beyond = isBeyond(contact, quantity, at, band) ? `, ${common('beyond_normal_variation')}` : '';
  const side = contact.side === 'unknown' ? '' : `, ${common(contact.side)}`;
  return `${t('step_n', { n: contact.step })}${side}${distance}: ${label} ${formatQuantity(quantity, value, u)}${normal}${beyond}`;
}

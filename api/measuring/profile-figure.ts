import type { Contact } from '../../shared/analysis.ts';
import { capital } from '../../shared/capital.ts';
import { CONTACT_FIELDS, type FieldDefinition, type ProfileQuantity, uncertaintyOf } from '../../shared/fields.ts';
import { niceTicks } from '../../shared/nice-ticks.ts';
import type { RepetitionProfile } from '../../shared/schemas/repetition.ts';
import type { Side } from '../../shared/words.ts';
import type { Figure } from '../figures/figure.ts';
import { valueAxis } from '../figures/value-axis.ts';
import { VERSION } from '../version.ts';
import { reasonText } from './reason-text.ts';

export const FIGURE_AXES = ['step', 'distance'] as const;
export type FigureAxisWord = (typeof FIGURE_AXES)[number];

const HALF = 1.96;
const SHAPES: Record<Side, number> = { left: 0, right: 1, unknown: 3 };
const DASHES: Partial<Record<Side, [number, number]>> = { right: [4, 3] };

/** A quantity of a repetition by step or distance, over the athlete's normal variation; null where nothing of it was measured. */
export function profileFigure(
  profile: RepetitionProfile,
  { repetition_id, course_end_s }: { repetition_id: number; course_end_s: number | null },
  quantity: ProfileQuantity,
  by: FigureAxisWord,
): Figure | null {
  const field: FieldDefinition = CONTACT_FIELDS[quantity];
  const { label } = field;
  const at = (contact: Contact): number | null => (by === 'step' ? contact.step : contact.distance_m);
  // Slowing behind the line is no part of the repetition's profile.
  const contacts = profile.contacts.filter(({ touchdown_s }) => course_end_s === null || touchdown_s <= course_end_s);
  const points = contacts.flatMap((contact) => {
    const [x, y] = [at(contact), contact[quantity]];
    if (x === null || y === null) return [];
    const u = uncertaintyOf(contact, quantity);
    return [{ contact, x, y, half: u === null ? null : HALF * u }];
  });
  if (points.length === 0) return null;
  const [first, last] = [Math.min(...points.map((p) => p.x)), Math.max(...points.map((p) => p.x))];
  const band = profile.baseline.quantities[quantity]?.[by === 'step' ? 'by_step' : 'by_distance'] ?? [];
  const near = band.filter((point) => point.at >= first && point.at <= last);
  const low = Math.min(...points.map((p) => p.y - (p.half ?? 0)), ...near.map((b) => b.low));
  const high = Math.max(...points.map((p) => p.y + (p.half ?? 0)), ...near.map((b) => b.high));
  const sides = (['left', 'right', 'unknown'] as const).filter((side) => points.some((p) => p.contact.side === side));
  const colour = (side: Side) => (side === 'unknown' ? 'ink' : side);
  return {
    title: `${capital(label)} by ${by}`,
    caption: `${capital(label)} of every contact of repetition ${repetition_id}${course_end_s === null ? '' : ', up to the end of its course'}. Whiskers: 95 % interval (${HALF} standard uncertainties). ${
      near.length > 0
        ? `Band: this athlete's normal variation, from ${profile.baseline.n} comparable repetitions, one typical error (dark) and the limit for single values (light) about its centre. `
        : ''
    }Left: round, solid line; right: square, dashed line. Cinderlane ${VERSION}.`,
    x: { label: by === 'step' ? 'step' : 'distance, m', low: first, high: last, ticks: niceTicks(first, last, 8) },
    y: valueAxis(field, [low, high]),
    areas: [
      {
        points: near.map((b) => ({ x: b.at, low: b.centre - b.flag_from, high: b.centre + b.flag_from })),
        opacity: 0.1,
      },
      { points: near.map((b) => ({ x: b.at, low: b.low, high: b.high })), opacity: 0.15 },
    ],
    lines: sides.map((side) => ({
      points: points.filter((p) => p.contact.side === side).map((p): [number, number] => [p.x, p.y]),
      colour: colour(side),
      dash: DASHES[side],
    })),
    marks: points.map((p) => ({ x: p.x, y: p.y, half: p.half, side: p.contact.side, shape: SHAPES[p.contact.side] })),
    legend: sides.map((side) => ({ label: side, side, shape: SHAPES[side], colour: colour(side) })),
    data: contacts.map((contact) => {
      const normal = band.find((point) => point.at === at(contact));
      return {
        step: contact.step,
        side: contact.side,
        distance_m: contact.distance_m,
        [quantity]: contact[quantity],
        [`${quantity}_u`]: uncertaintyOf(contact, quantity),
        normal_centre: normal?.centre ?? null,
        normal_low: normal?.low ?? null,
        normal_high: normal?.high ?? null,
        reason: contact.reasons[quantity] ? reasonText(contact.reasons[quantity]) : null,
      };
    }),
  };
}

import {
  type NeighbourDifference,
  neighbourDifference,
  type SidedValue,
} from '../../dsp/athlete/neighbour-difference.ts';
import type { ContactQuantity, QuantitySummary, RepetitionResult } from '../../shared/analysis.ts';
import { meansOfRepetition } from '../../shared/at-speed.ts';
import { SUMMARY_QUANTITIES } from '../../shared/fields.ts';
import type { Store } from './store.ts';
import { coachQuery, type RepetitionValueRow } from './coach-tables.ts';

export type RepetitionValue = Omit<RepetitionValueRow, 'analysis_id'>;

/**
 * The values of one repetition that baselines, trends and focuses are made of.
 * Contact fields: mean at speed, or over all contacts where none was at speed. Left and right are over the same stretch
 * when the contacts are given, so that a slow start on one foot makes no side difference.
 * @returns one entry for each quantity that could be measured
 */
export function repetitionValues(result: Pick<RepetitionResult, 'summary' | 'contacts'>): RepetitionValue[] {
  const { summary, contacts } = result;
  const { means, stretch } = meansOfRepetition(summary);
  const counted = stretch === 'at_speed' ? contacts.filter((contact) => contact.phase === 'maximum speed') : contacts;
  const values: RepetitionValue[] = [];
  for (const quantity of SUMMARY_QUANTITIES) {
    const mean = means[quantity];
    if (!mean || !Number.isFinite(mean.mean)) continue;
    const left = sideSummary(counted, quantity, 'left') ?? summary.left[quantity] ?? null;
    const right = sideSummary(counted, quantity, 'right') ?? summary.right[quantity] ?? null;
    const neighbours = neighbourDifference(sidedValues(counted, quantity));
    values.push(entry(quantity, stretch, mean.mean, finite(mean.mean_u), mean.n, left, right, neighbours));
  }
  values.push(...sideDifferences(values));
  const end = contacts.find((contact) => contact.phase === 'maximum speed');
  if (contacts.some((contact) => contact.phase === 'acceleration') && end?.distance_m != null) {
    values.push(entry('acceleration_end_m', 'all', end.distance_m, finite(end.distance_m_u), 1, null, null));
  }
  if (summary.speed_max_mps !== null) {
    values.push(entry('speed_max_mps', 'all', summary.speed_max_mps, finite(summary.speed_max_mps_u), 1, null, null));
  }
  if (summary.time_s !== null) values.push(entry('time_s', 'all', summary.time_s, null, 1, null, null));
  return values;
}

/** Stores the values beside their analysis; called in the transaction that stores the analysis. */
export function insertRepetitionValues(store: Store, analysis_id: number, values: readonly RepetitionValue[]): void {
  const rows = values.map((value) => ({ analysis_id, ...value }));
  if (rows.length > 0) store.run(coachQuery(store).insertInto('repetition_values').values(rows));
}

type Spread = Pick<QuantitySummary, 'mean' | 'sd' | 'n'>;

function sideSummary(
  contacts: RepetitionResult['contacts'],
  quantity: ContactQuantity,
  side: 'left' | 'right',
): Spread | null {
  const values = contacts
    .filter((contact) => contact.side === side)
    .map((contact) => contact[quantity])
    .filter((value): value is number => typeof value === 'number' && Number.isFinite(value));
  if (values.length === 0) return null;
  const mean = values.reduce((a, b) => a + b, 0) / values.length;
  const square = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  return { mean, n: values.length, sd: values.length > 1 ? Math.sqrt(square / (values.length - 1)) : Number.NaN };
}

function sidedValues(contacts: RepetitionResult['contacts'], quantity: ContactQuantity): SidedValue[] {
  return contacts.flatMap(({ step, side, [quantity]: value }) =>
    (side === 'left' || side === 'right') && typeof value === 'number' && Number.isFinite(value)
      ? [{ step, side, value }]
      : [],
  );
}

/** Left minus right as quantities of their own: from neighbouring steps. */
function sideDifferences(values: readonly RepetitionValue[]): RepetitionValue[] {
  return (['contact_time_ms', 'step_time_ms'] as const).flatMap((quantity) => {
    const value = values.find((item) => item.quantity === quantity);
    if (!value || value.side_difference === null) return [];
    const name = quantity.replace('_ms', '_side_difference_ms');
    return [{ ...value, quantity: name, value: value.side_difference, value_u: value.side_difference_u }];
  });
}

function entry(
  quantity: string,
  stretch: string,
  value: number,
  value_u: number | null,
  n: number,
  left: Spread | null,
  right: Spread | null,
  neighbours: NeighbourDifference | null = null,
): RepetitionValue {
  return {
    quantity,
    stretch,
    value,
    value_u,
    n,
    left_value: finite(left?.mean),
    left_sd: finite(left?.sd),
    left_n: left?.n ?? null,
    right_value: finite(right?.mean),
    right_sd: finite(right?.sd),
    right_n: right?.n ?? null,
    side_difference: finite(neighbours?.difference),
    side_difference_u: finite(neighbours?.difference_u),
  };
}

function finite(value: number | null | undefined): number | null {
  return value !== null && value !== undefined && Number.isFinite(value) ? value : null;
}

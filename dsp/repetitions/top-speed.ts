import type { Contact } from '../../shared/analysis.ts';
import { because, type CodedReason } from '../../shared/reason.ts';

/** A top speed that is known no better than this share of itself tells a coach nothing: good ones are known to 2 or 3 %. */
const GREATEST_SHARE_U = 0.06;

/** Strides are refused with these where a sensor's range ends: where the foot is fastest. */
const RANGE = ['swing_beyond_gyroscope', 'swing_beyond_accelerometer'];

/**
 * The greatest speed of a repetition. From foot sensors alone it is not given where strides went beyond a sensor's range (the
 * fastest are those that are missing), nor where it is hardly known.
 * @returns null with a reason, or without one where no speed is known at all
 */
export function topSpeed(rows: readonly Contact[]): {
  speed_max_mps: number | null;
  speed_max_mps_u: number | null;
  reason?: CodedReason;
} {
  const none = { speed_max_mps: null, speed_max_mps_u: null };
  let fastest: Contact | null = null;
  for (const row of rows) {
    if (row.speed_mps !== null && (fastest === null || row.speed_mps > fastest.speed_mps!)) fastest = row;
  }
  if (fastest === null) return none;
  if (fastest.spatial_source === 'foot_sensor') {
    const beyond = rows.some(({ speed_mps, reasons }) => {
      const why = reasons.step_length_m;
      return speed_mps === null && typeof why === 'object' && RANGE.includes(why.because);
    });
    if (beyond) return { ...none, reason: because('fastest_strides_clipped') };
    if ((fastest.speed_mps_u ?? 0) > GREATEST_SHARE_U * fastest.speed_mps!) {
      return { ...none, reason: because('top_speed_hardly_known') };
    }
  }
  return { speed_max_mps: fastest.speed_mps, speed_max_mps_u: fastest.speed_mps_u };
}

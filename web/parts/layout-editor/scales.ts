import type { AxisTriple } from '../../../shared/schemas/layout.ts';
import { RADIANS_PER_DEGREE, STANDARD_GRAVITY_MPS2 } from '../../../shared/units.ts';

/** A unit, or counts with how many of them make 1 g or 1 deg/s. */
export interface ScaleDraft {
  unit: string;
  counts: string;
}

const G = STANDARD_GRAVITY_MPS2;
const ACC: Record<string, number> = { g: G, mg: G / 1000, 'm/s2': 1, 'cm/s2': 0.01 };
const D = RADIANS_PER_DEGREE;
const GYR: Record<string, number> = {
  'deg/s': D,
  'mdeg/s': D / 1000,
  'rad/s': 1,
  'mrad/s': 0.001,
  'rev/min': Math.PI / 30,
};

export const ACC_UNITS = [...Object.keys(ACC), 'counts'];
export const GYR_UNITS = [...Object.keys(GYR), 'counts'];

export const accScale = (draft: ScaleDraft) => scale(draft, ACC, G);
export const gyrScale = (draft: ScaleDraft) => scale(draft, GYR, D);
export const accUnitOf = (triple: AxisTriple) => unitOf(triple, ACC, G);
export const gyrUnitOf = (triple: AxisTriple) => unitOf(triple, GYR, D);

/** One unit in m/s2 or rad/s; null while the counts are not said. */
function scale({ unit, counts }: ScaleDraft, known: Record<string, number>, one: number): number | null {
  if (unit !== 'counts') return known[unit] ?? null;
  const per = numberIn(counts);
  return per === null ? null : one / per;
}

/** The unit by its name where its size is that of the name; what is scaled in another way counts as counts. */
function unitOf({ unit, to_si }: AxisTriple, known: Record<string, number>, one: number): ScaleDraft {
  const usual = known[unit];
  if (usual !== undefined && Math.abs(to_si / usual - 1) < 1e-9) return { unit, counts: '' };
  return { unit: 'counts', counts: String(Number((one / to_si).toPrecision(10))) };
}

/** A number above zero as a person types it, with point or comma; null where it is none. */
export function numberIn(text: string): number | null {
  const value = Number(text.trim().replace(',', '.'));
  return text.trim() !== '' && value > 0 && Number.isFinite(value) ? value : null;
}

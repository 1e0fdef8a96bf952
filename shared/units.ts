/**
 * Every conversion factor of the project. Inside, values are SI; ingest converts on the way in and web on the way out.
 * Sources: international yard and pound agreement of 1959 (1 yd = 0.9144 m, 1 lb = 0.45359237 kg, both exact);
 * standard gravity 9.80665 m/s2, exact (3rd CGPM, 1901).
 */

export const STANDARD_GRAVITY_MPS2 = 9.80665;
export const METRES_PER_YARD = 0.9144;
export const METRES_PER_FOOT = 0.3048;
export const KILOGRAMS_PER_POUND = 0.45359237;
export const RADIANS_PER_DEGREE = Math.PI / 180;

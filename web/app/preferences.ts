import { effect, signal } from '@preact/signals';

export const LENGTH_UNITS = ['m', 'yd', 'ft'] as const;
export type LengthUnit = (typeof LENGTH_UNITS)[number];
export const MASS_UNITS = ['kg', 'lb'] as const;
export type MassUnit = (typeof MASS_UNITS)[number];
export const LOOKS = ['device', 'light', 'dark'] as const;
export type Look = (typeof LOOKS)[number];

/** What this device remembers about how its user likes to read numbers. */
export interface Preferences {
  /** Courses, distances and step lengths. */
  length: LengthUnit;
  mass: MassUnit;
  /** Light or dark, or as the device is set. */
  look: Look;
}

const STORAGE_KEY = 'cinderlane.preferences';
const DEFAULTS: Preferences = { length: 'm', mass: 'kg', look: 'device' };

function stored(): Preferences {
  try {
    const read = JSON.parse(localStorage.getItem(STORAGE_KEY) ?? '{}') as Partial<Preferences>;
    return {
      length: LENGTH_UNITS.includes(read.length as LengthUnit) ? (read.length as LengthUnit) : DEFAULTS.length,
      mass: MASS_UNITS.includes(read.mass as MassUnit) ? (read.mass as MassUnit) : DEFAULTS.mass,
      look: LOOKS.includes(read.look as Look) ? (read.look as Look) : DEFAULTS.look,
    };
  } catch {
    // Storage is switched off: the defaults serve for this visit.
    return DEFAULTS;
  }
}

export const preferences = signal<Preferences>(stored());

effect(() => {
  const text = JSON.stringify(preferences.value);
  try {
    localStorage.setItem(STORAGE_KEY, text);
  } catch {
    // Storage is switched off: the choice lasts until the page is closed.
  }
});

import { isStandIn, localDate } from '../../shared/dates.ts';
import { commonWords } from '../../shared/messages/en/view/common.ts';
import { dateLocale, definitionText, labelText, phrasesOf, speech } from './language.ts';
import { CONTACT_FIELDS, type ContactField, type FieldDefinition } from '../../shared/fields.ts';
import type { ContactQuantity } from '../../shared/analysis.ts';
import { KILOGRAMS_PER_POUND, METRES_PER_FOOT, METRES_PER_YARD } from '../../shared/units.ts';
import { LENGTH_UNITS, type LengthUnit, preferences } from './preferences.ts';

const t = phrasesOf('common', commonWords);

const METRES: Record<LengthUnit, number> = { m: 1, yd: METRES_PER_YARD, ft: METRES_PER_FOOT };

/** How a quantity is put on screen in the user's units: shown = value * factor. */
export interface Display {
  label: string;
  unit: string;
  decimals: number;
  factor: number;
  definition: string;
}

/** Label, unit, decimals and factor of a contact quantity, in the user's units. */
export function displayOf(quantity: ContactQuantity): Display {
  return displayField(CONTACT_FIELDS[quantity]);
}

/** As `displayOf`, for a field definition of another dictionary. */
export function displayField(field: FieldDefinition & Pick<ContactField, 'step_sized'>): Display {
  const { decimals } = field;
  const definition = definitionText(field);
  const label = labelText(field.label);
  if (field.unit === 'm') {
    const chosen = preferences.value.length;
    const length = chosen === 'yd' && field.step_sized ? 'ft' : chosen;
    return { label, unit: length, decimals, factor: 1 / METRES[length], definition };
  }
  if (field.unit === 'Hz' && field.label === 'step rate') return { label, unit: '/s', decimals, factor: 1, definition };
  return { label, unit: field.unit === '1' ? '' : field.unit, decimals, factor: 1, definition };
}

/** A number with a fixed number of decimals and a true minus sign; an en dash stands for 'not measurable'. */
export function formatNumber(value: number | null | undefined, decimals: number): string {
  if (value === null || value === undefined || !Number.isFinite(value)) return '–';
  const isZero = Number(value.toFixed(decimals)) === 0;
  return speech.value.number(isZero ? 0 : value, decimals).replace('-', '−');
}

/** Value and 95 % half-width as text, apart, so that pages can set them in different sizes. */
export interface ShownQuantity {
  value: string;
  /** Empty when the uncertainty is unknown. */
  half: string;
  unit: string;
}

/**
 * A quantity in the user's units. One more decimal than usual is shown where the uncertainty would round to nothing.
 * @param u standard uncertainty, in the quantity's own unit
 */
export function shownQuantity(quantity: ContactQuantity, value: number, u?: number | null): ShownQuantity {
  const { unit, decimals, factor } = displayOf(quantity);
  if (u === null || u === undefined) return { value: formatNumber(value * factor, decimals), half: '', unit };
  const half = 1.96 * u * factor;
  const digits = half > 0 && half < 0.5 * 10 ** -decimals ? decimals + 1 : decimals;
  return { value: formatNumber(value * factor, digits), half: formatNumber(half, digits), unit };
}

/** Value with its 95 % half-width, e.g. `118 ± 4 ms`, in the user's units. */
export function formatQuantity(quantity: ContactQuantity, value: number | null | undefined, u?: number | null): string {
  if (value === null || value === undefined) return '–';
  const shown = shownQuantity(quantity, value, u);
  return `${shown.value}${shown.half && ` ± ${shown.half}`}${shown.unit && ` ${shown.unit}`}`;
}

/**
 * Length of a course as it was laid out: 40 yd stay 40 yd for a user of metres, since 36.58 m is nobody's course.
 * Courses that are whole in no unit are told in the user's.
 */
export function formatCourse(metres: number): string {
  const chosen = preferences.value.length;
  const unit = [chosen, ...LENGTH_UNITS].find((candidate) => isWhole(metres / METRES[candidate])) ?? chosen;
  const shown = metres / METRES[unit];
  return `${speech.value.number(shown, isWhole(shown) ? 0 : 2)} ${unit}`;
}

function isWhole(value: number): boolean {
  return Math.abs(value - Math.round(value)) < 0.005;
}

/** A distance in the user's units; whole numbers stay whole. */
export function formatDistance(metres: number | null | undefined): string {
  if (metres === null || metres === undefined) return '–';
  const unit = preferences.value.length;
  const shown = metres / METRES[unit];
  return `${speech.value.number(shown, isWhole(shown) ? 0 : 2)} ${unit}`;
}

export function formatMass(kilograms: number | null | undefined): string {
  if (kilograms === null || kilograms === undefined) return '–';
  const unit = preferences.value.mass;
  return unit === 'kg'
    ? `${speech.value.number(kilograms, 1)} kg`
    : `${(kilograms / KILOGRAMS_PER_POUND).toFixed(0)} lb`;
}

/** Metres of a distance typed in the user's unit. */
export function metresFrom(value: number, unit: LengthUnit): number {
  return value * METRES[unit];
}

/** Seconds with hundredths, as a sprint time is read. */
export function formatTime(seconds: number | null | undefined): string {
  return seconds === null || seconds === undefined ? '–' : `${speech.value.number(seconds, 2)} s`;
}

const FORMATS = {
  date: { weekday: 'short', day: 'numeric', month: 'short', year: 'numeric' },
  short: { day: 'numeric', month: 'short' },
  clock: { hour: '2-digit', minute: '2-digit' },
  weekday: { weekday: 'short' },
  month: { month: 'long', year: 'numeric' },
} as const satisfies Record<string, Intl.DateTimeFormatOptions>;

const made = new Map<string, Intl.DateTimeFormat>();

/** Writes days and clocks in the language and variant of this device. */
function dateFormat(name: keyof typeof FORMATS): Intl.DateTimeFormat {
  const key = `${dateLocale()} ${name}`;
  const known = made.get(key) ?? new Intl.DateTimeFormat(dateLocale(), FORMATS[name]);
  made.set(key, known);
  return known;
}

/** `2026-11-24` or an ISO instant, as a local date. A bare date is that day everywhere, not midnight UTC. */
function dateOfText(text: string): Date {
  return /^\d{4}-\d{2}-\d{2}$/.test(text) ? new Date(`${text}T12:00:00`) : new Date(text);
}

export function formatDate(text: string | null | undefined): string {
  if (text && isStandIn(text)) return t('day_unknown');
  return text ? dateFormat('date').format(dateOfText(text)) : '–';
}

export function formatShortDate(text: string | null | undefined): string {
  if (text && isStandIn(text)) return t('day_unknown');
  return text ? dateFormat('short').format(dateOfText(text)) : '–';
}

export function formatClock(instant: string | null | undefined): string {
  return instant ? dateFormat('clock').format(new Date(instant)) : '–';
}

/** Day within its month, `Tue 24`. */
export function formatDay(text: string): string {
  const date = dateOfText(text);
  return `${dateFormat('weekday').format(date)} ${date.getDate()}`;
}

/** `2026-11` as `November 2026`. */
export function formatMonth(month: string): string {
  return dateFormat('month').format(dateOfText(`${month}-15`));
}

/** This device's date, `2026-11-25`: a coach's 'today' is where the coach stands. */
export function localToday(): string {
  return localDate(new Date());
}

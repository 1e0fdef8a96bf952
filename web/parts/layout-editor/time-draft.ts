import type { TimeDraft } from './draft.ts';
import type { TimeColumns } from '../../../shared/schemas/layout.ts';
import type { LayoutDraft } from './draft.ts';
import { numberIn } from './scales.ts';

const SECONDS: Record<string, number> = { s: 1, ms: 1e-3, us: 1e-6, ns: 1e-9, min: 60, days: 86_400 };

export const TIME_UNITS: { value: string; label: string }[] = [
  { value: 's', label: 'seconds' },
  { value: 'ms', label: 'milliseconds' },
  { value: 'us', label: 'microseconds' },
  { value: 'ns', label: 'nanoseconds' },
  { value: 'ticks', label: 'ticks of a clock, or row numbers' },
  { value: 'iso', label: 'date and time in one column' },
  { value: 'clock', label: 'time of day' },
  { value: 'date_and_clock', label: 'a date and a time of day' },
  { value: 'rows', label: 'not written: a fixed rate' },
];

/** Shown besides, where a file has them. */
export const RARE_TIME_UNITS = [
  { value: 'min', label: 'minutes' },
  { value: 'days', label: 'days of a spreadsheet' },
];

export function timeDraftOf(time: TimeColumns): TimeDraft {
  const unit = Object.keys(SECONDS).find((name) => Math.abs(SECONDS[name] / time.seconds_per_unit - 1) < 1e-9);
  const numeric = time.kind === 'number' || time.kind === 'interval';
  const ticks = numeric && !unit;
  return {
    unit: numeric ? (unit ?? 'ticks') : time.kind,
    ticks_per_s: ticks ? String(Number((1 / time.seconds_per_unit).toPrecision(10))) : '',
    rate_hz: time.kind === 'rows' && time.rate_hz ? String(time.rate_hz) : '',
    date_order: time.date_order ?? '',
    epoch_s: time.epoch_s,
    since_last: time.kind === 'interval',
  };
}

/** The time of a draft for the reader, and what is still to be said for it. */
export function timeColumns({ columns, time }: LayoutDraft): { time: TimeColumns; missing: string } {
  const at = (role: string) => columns.findIndex((column) => column.role === role);
  const numeric = time.unit === 'ticks' || time.unit in SECONDS;
  const kind = numeric ? (time.since_last ? 'interval' : 'number') : (time.unit as TimeColumns['kind']);
  const ticks = numberIn(time.ticks_per_s);
  const rate = numberIn(time.rate_hz);
  const wanted = kind === 'rows' ? [] : kind === 'date_and_clock' ? [at('date'), at('clock')] : [at('time')];
  const written = {
    kind,
    columns: wanted,
    seconds_per_unit: time.unit === 'ticks' ? 1 / (ticks ?? 1) : (SECONDS[time.unit] ?? 1),
    epoch_s: kind === 'number' ? time.epoch_s : null,
    date_order: kind === 'iso' || kind === 'date_and_clock' ? time.date_order || null : null,
    rate_hz: kind === 'rows' ? rate : null,
  };
  return { time: written, missing: missing() };

  function missing(): string {
    if (kind === 'rows') return rate === null ? 'Say how many samples a second there are.' : '';
    if (kind === 'date_and_clock' && wanted.includes(-1)) return 'Say which columns hold the date and the time of day.';
    if (wanted.includes(-1)) return 'Say which column holds the time, or that it is not written.';
    return time.unit === 'ticks' && ticks === null ? 'Say how many ticks (or rows) make a second.' : '';
  }
}

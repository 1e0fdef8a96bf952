import { phrasesOf } from '../../app/language.ts';
import { filesWords } from '../../../shared/messages/en/view/files.ts';
import type { TimeDraft } from './draft.ts';
import type { TimeColumns } from '../../../shared/schemas/layout.ts';
import type { LayoutDraft } from './draft.ts';
import { numberIn } from './scales.ts';

const t = phrasesOf('files', filesWords);

const SECONDS: Record<string, number> = { s: 1, ms: 1e-3, us: 1e-6, ns: 1e-9, min: 60, days: 86_400 };

export const timeUnits = (): { value: string; label: string }[] => [
  { value: 's', label: t('seconds') },
  { value: 'ms', label: t('milliseconds') },
  { value: 'us', label: t('microseconds') },
  { value: 'ns', label: t('nanoseconds') },
  { value: 'ticks', label: t('ticks_of_a_clock_or') },
  { value: 'iso', label: t('date_and_time_in_one') },
  { value: 'clock', label: t('time_of_day') },
  { value: 'date_and_clock', label: t('a_date_and_a_time') },
  { value: 'rows', label: t('not_written_a_fixed_rate') },
];

/** Shown besides, where a file has them. */
export const rareTimeUnits = () => [
  { value: 'min', label: t('minutes') },
  { value: 'days', label: t('days_of_a_spreadsheet') },
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
    if (kind === 'rows') return rate === null ? t('say_how_many_samples_a') : '';
    if (kind === 'date_and_clock' && wanted.includes(-1)) return t('say_which_columns_hold_the');
    if (wanted.includes(-1)) return t('say_which_column_holds_the');
    return time.unit === 'ticks' && ticks === null ? t('say_how_many_ticks_or') : '';
  }
}

import { SelectField } from '../select-field.tsx';
import { TextField } from '../text-field.tsx';
import type { LayoutDraft } from './draft.ts';
import { ACC_UNITS, GYR_UNITS } from './scales.ts';
import { RARE_TIME_UNITS, TIME_UNITS } from './time-draft.ts';

interface UnitFieldsProps {
  draft: LayoutDraft;
  onChange: (draft: LayoutDraft) => void;
}

/** Units of time, acceleration and rotation, with what each needs besides. */
export function UnitFields({ draft, onChange }: UnitFieldsProps) {
  const { time, acc, gyr } = draft;
  const setTime = (change: Partial<LayoutDraft['time']>) => onChange({ ...draft, time: { ...time, ...change } });
  const rare = RARE_TIME_UNITS.filter(({ value }) => value === time.unit);
  return (
    <div class="field-grid">
      <SelectField
        label="Time is in"
        value={time.unit}
        options={[...TIME_UNITS, ...rare]}
        onChange={(unit) => setTime({ unit, epoch_s: null })}
      />
      {time.since_last && (
        <label class="check">
          <input
            type="checkbox"
            checked={time.since_last}
            onChange={(event) => setTime({ since_last: event.currentTarget.checked })}
          />
          <span>counted from the row before</span>
        </label>
      )}
      {time.unit === 'ticks' && (
        <TextField
          label="Ticks or rows in a second"
          value={time.ticks_per_s}
          onChange={(ticks_per_s) => setTime({ ticks_per_s })}
        />
      )}
      {time.unit === 'rows' && (
        <TextField label="Samples in a second" value={time.rate_hz} onChange={(rate_hz) => setTime({ rate_hz })} />
      )}
      {(time.unit === 'iso' || time.unit === 'date_and_clock') && (
        <SelectField
          label="Dates are written"
          value={time.date_order}
          options={[
            { value: '' as const, label: 'not told: date left out' },
            { value: 'ymd' as const, label: 'year, month, day' },
            { value: 'dmy' as const, label: 'day, month, year' },
            { value: 'mdy' as const, label: 'month, day, year' },
          ]}
          onChange={(date_order) => setTime({ date_order })}
        />
      )}
      <SelectField
        label="Acceleration is in"
        value={acc.unit}
        options={ACC_UNITS.map((value) => ({ value, label: value }))}
        onChange={(unit) => onChange({ ...draft, acc: { ...acc, unit } })}
      />
      {acc.unit === 'counts' && (
        <TextField
          label="Counts of 1 g"
          value={acc.counts}
          onChange={(counts) => onChange({ ...draft, acc: { ...acc, counts } })}
          help="2048 where 16 bits span ±16 g"
        />
      )}
      <SelectField
        label="Rotation is in"
        value={gyr.unit}
        options={GYR_UNITS.map((value) => ({ value, label: value }))}
        onChange={(unit) => onChange({ ...draft, gyr: { ...gyr, unit } })}
      />
      {gyr.unit === 'counts' && (
        <TextField
          label="Counts of 1 deg/s"
          value={gyr.counts}
          onChange={(counts) => onChange({ ...draft, gyr: { ...gyr, counts } })}
          help="16.4 where 16 bits span ±2000 deg/s"
        />
      )}
    </div>
  );
}

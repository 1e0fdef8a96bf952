import { phrasesOf } from '../../app/language.ts';
import { filesWords } from '../../../shared/messages/en/view/files.ts';
import { SelectField } from '../select-field.tsx';
import { TextField } from '../text-field.tsx';
import type { LayoutDraft } from './draft.ts';
import { ACC_UNITS, GYR_UNITS } from './scales.ts';
import { rareTimeUnits, timeUnits } from './time-draft.ts';

const t = phrasesOf('files', filesWords);

interface UnitFieldsProps {
  draft: LayoutDraft;
  onChange: (draft: LayoutDraft) => void;
}

/** Units of time, acceleration and rotation, with what each needs besides. */
export function UnitFields({ draft, onChange }: UnitFieldsProps) {
  const { time, acc, gyr } = draft;
  const setTime = (change: Partial<LayoutDraft['time']>) => onChange({ ...draft, time: { ...time, ...change } });
  const rare = rareTimeUnits().filter(({ value }) => value === time.unit);
  return (
    <div class="field-grid">
      <SelectField
        label={t('time_is_in')}
        value={time.unit}
        options={[...timeUnits(), ...rare]}
        onChange={(unit) => setTime({ unit, epoch_s: null })}
      />
      {time.since_last && (
        <label class="check">
          <input
            type="checkbox"
            checked={time.since_last}
            onChange={(event) => setTime({ since_last: event.currentTarget.checked })}
          />
          <span>{t('counted_from_the_row_before')}</span>
        </label>
      )}
      {time.unit === 'ticks' && (
        <TextField
          label={t('ticks_or_rows_in_a')}
          value={time.ticks_per_s}
          onChange={(ticks_per_s) => setTime({ ticks_per_s })}
        />
      )}
      {time.unit === 'rows' && (
        <TextField label={t('samples_in_a_second')} value={time.rate_hz} onChange={(rate_hz) => setTime({ rate_hz })} />
      )}
      {(time.unit === 'iso' || time.unit === 'date_and_clock') && (
        <SelectField
          label={t('dates_are_written')}
          value={time.date_order}
          options={[
            { value: '' as const, label: t('not_told_date_left_out') },
            { value: 'ymd' as const, label: t('year_month_day') },
            { value: 'dmy' as const, label: t('day_month_year') },
            { value: 'mdy' as const, label: t('month_day_year') },
          ]}
          onChange={(date_order) => setTime({ date_order })}
        />
      )}
      <SelectField
        label={t('acceleration_is_in')}
        value={acc.unit}
        options={ACC_UNITS.map((value) => ({ value, label: value }))}
        onChange={(unit) => onChange({ ...draft, acc: { ...acc, unit } })}
      />
      {acc.unit === 'counts' && (
        <TextField
          label={t('counts_of_1_g')}
          value={acc.counts}
          onChange={(counts) => onChange({ ...draft, acc: { ...acc, counts } })}
          help={t('n_2048_where_16_bits_span')}
        />
      )}
      <SelectField
        label={t('rotation_is_in')}
        value={gyr.unit}
        options={GYR_UNITS.map((value) => ({ value, label: value }))}
        onChange={(unit) => onChange({ ...draft, gyr: { ...gyr, unit } })}
      />
      {gyr.unit === 'counts' && (
        <TextField
          label={t('counts_of_1_deg_s')}
          value={gyr.counts}
          onChange={(counts) => onChange({ ...draft, gyr: { ...gyr, counts } })}
          help={t('n_16_4_where_16_bits')}
        />
      )}
    </div>
  );
}

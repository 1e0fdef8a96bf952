import { phrasesOf } from '../../../app/language.ts';
import { commonWords } from '../../../../shared/messages/en/view/common.ts';
import { testsWords } from '../../../../shared/messages/en/view/tests.ts';
import { useState } from 'preact/hooks';
import type { NewSprintTest, SprintTest } from '../../../../shared/schemas/coach/sprint-test.ts';
import type { Fault } from '../../../../shared/fault.ts';
import { METRES_PER_YARD } from '../../../../shared/units.ts';
import { START_STYLES, type StartStyle, TIMING_METHODS, type TimingMethod } from '../../../../shared/words.ts';
import { startStyleWords, timingMethodWords } from '../../../app/describe.ts';
import { preferences } from '../../../app/preferences.ts';
import { faultOf } from '../../../client.ts';
import { Dialog } from '../../../parts/dialog.tsx';
import { FaultBox } from '../../../parts/fault-box.tsx';
import { SelectField } from '../../../parts/select-field.tsx';
import { TextField } from '../../../parts/text-field.tsx';
import { localToday } from '../../../app/format.ts';
import { coachApi } from '../coach-api.ts';
import { NumberField } from '../parts/number-field.tsx';

const t = phrasesOf('tests', testsWords);
const common = phrasesOf('common', commonWords);

interface TestDialogProps {
  athlete_id: number;
  /** Null records a new one. */
  test: SprintTest | null;
  /** The test before, whose course and method are offered again. */
  like: SprintTest | null;
  onClose: () => void;
  onDelete: (test: SprintTest) => void;
  onSaved: () => Promise<void>;
}

interface SplitDraft {
  distance: number | null;
  time_s: number | null;
}

/** Records or changes one sprint test. */
export function TestDialog({ athlete_id, test, like, onClose, onDelete, onSaved }: TestDialogProps) {
  const base = test ?? like;
  const firstUnit = base?.distance_unit ?? (preferences.value.length === 'm' ? 'm' : 'yd');
  const [unit, setUnit] = useState<'yd' | 'm'>(firstUnit);
  const factor = unit === 'yd' ? METRES_PER_YARD : 1;
  const [date, setDate] = useState(test?.date ?? localToday());
  const [distance, setDistance] = useState<number | null>(
    base ? Number((base.distance_m / (firstUnit === 'yd' ? METRES_PER_YARD : 1)).toFixed(2)) : 40,
  );
  const [method, setMethod] = useState<TimingMethod>(base?.timing_method ?? 'hand');
  const [start, setStart] = useState<StartStyle>(base?.start_style ?? 'standing');
  const [times, setTimes] = useState<(number | null)[]>(
    test ? (test.watches_s.length > 0 ? test.watches_s : [test.time_s]) : [null],
  );
  const [wind, setWind] = useState<number | null>(test?.wind_mps ?? null);
  const [splits, setSplits] = useState<SplitDraft[]>(
    (test?.splits ?? []).map((split) => ({
      distance: Number((split.distance_m / (firstUnit === 'yd' ? METRES_PER_YARD : 1)).toFixed(2)),
      time_s: split.split_time_s,
    })),
  );
  const [note, setNote] = useState(test?.note ?? '');
  const [fault, setFault] = useState<Fault | null>(null);

  const save = async () => {
    const watches_s = times.filter((time) => time !== null);
    if (distance === null || watches_s.length === 0) return;
    const body: Omit<NewSprintTest, 'athlete_id'> = {
      date,
      distance_m: distance * factor,
      distance_unit: unit,
      start_style: start,
      timing_method: method,
      watches_s: watches_s.length > 1 ? watches_s : [],
      splits: splits
        .filter((split) => split.distance !== null && split.time_s !== null)
        .map((split) => ({ distance_m: split.distance! * factor, split_time_s: split.time_s! })),
      wind_mps: wind,
      note,
      ...(watches_s.length === 1 ? { time_s: watches_s[0] } : {}),
    };
    setFault(null);
    try {
      if (test) await coachApi.changeSprintTest(test.sprint_test_id, body);
      else await coachApi.addSprintTest({ athlete_id, ...body });
      await onSaved();
    } catch (error) {
      setFault(faultOf(error));
    }
  };

  return (
    <Dialog title={test ? t('change_sprint_test') : t('record_a_sprint_test')} open onClose={onClose}>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          void save();
        }}
      >
        {fault && <FaultBox fault={fault} />}
        <div class="field-grid">
          <NumberField
            label={times.length > 1 ? t('time_of_watch_1_s') : common('time_s')}
            value={times[0]}
            min={0.5}
            max={600}
            onChange={(value) => setTimes([value, ...times.slice(1)])}
            onEmpty={() => setTimes([null, ...times.slice(1)])}
            help={t('as_read_such_as_5')}
          />
          {times.slice(1).map((time, index) => (
            <NumberField
              key={index}
              label={t('time_of_watch_s', { index: index + 2 })}
              value={time}
              min={0.5}
              max={600}
              onChange={(value) => setTimes(times.map((old, i) => (i === index + 1 ? value : old)))}
              onEmpty={() => setTimes(times.map((old, i) => (i === index + 1 ? null : old)))}
            />
          ))}
          <SelectField
            label={t('method')}
            value={method}
            options={TIMING_METHODS.map((value) => ({ value, label: timingMethodWords(value) }))}
            onChange={setMethod}
          />
        </div>
        {method === 'hand' && times.length < 3 && (
          <p>
            <button type="button" onClick={() => setTimes([...times, null])}>
              {t('another_watch')}
            </button>{' '}
            <span class="quiet">{t('of_three_the_middle_one')}</span>
          </p>
        )}
        <div class="field-grid">
          <NumberField label={common('distance')} value={distance} min={1} max={1000} onChange={setDistance} />
          <SelectField
            label={common('unit')}
            value={unit}
            options={[
              { value: 'yd', label: 'yd' },
              { value: 'm', label: 'm' },
            ]}
            onChange={setUnit}
          />
          <SelectField
            label={common('start')}
            value={start}
            options={START_STYLES.map((value) => ({ value, label: startStyleWords(value) }))}
            onChange={setStart}
          />
          <TextField label={common('date_2')} type="date" value={date} onChange={setDate} required />
          <NumberField
            label={t('wind_m_s_tail')}
            value={wind}
            min={-20}
            max={20}
            onChange={setWind}
            onEmpty={() => setWind(null)}
          />
        </div>
        <details class="more" open={splits.length > 0}>
          <summary>{common('splits')}</summary>
          {splits.map((split, index) => (
            <div class="field-grid" key={index}>
              <NumberField
                label={t('split_at', { index: index + 1, unit })}
                value={split.distance}
                min={0.5}
                onChange={(value) =>
                  setSplits(splits.map((old, i) => (i === index ? { ...old, distance: value } : old)))
                }
                onEmpty={() => setSplits(splits.map((old, i) => (i === index ? { ...old, distance: null } : old)))}
              />
              <NumberField
                label={t('split_time_s', { index: index + 1 })}
                value={split.time_s}
                min={0.1}
                onChange={(value) => setSplits(splits.map((old, i) => (i === index ? { ...old, time_s: value } : old)))}
                onEmpty={() => setSplits(splits.map((old, i) => (i === index ? { ...old, time_s: null } : old)))}
              />
            </div>
          ))}
          <button type="button" onClick={() => setSplits([...splits, { distance: null, time_s: null }])}>
            {t('add_a_split')}
          </button>
        </details>
        <TextField label={common('note')} value={note} onChange={setNote} />
        <p class="actions">
          <button type="submit" class="primary" disabled={distance === null || times.every((time) => time === null)}>
            {test ? common('save') : t('record')}
          </button>
          {test && (
            <button type="button" onClick={() => onDelete(test)}>
              {common('delete')}
            </button>
          )}
        </p>
      </form>
    </Dialog>
  );
}

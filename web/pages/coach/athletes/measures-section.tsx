import { phrasesOf } from '../../../app/language.ts';
import { commonWords } from '../../../../shared/messages/en/view/common.ts';
import { athletesWords } from '../../../../shared/messages/en/view/athletes.ts';
import { useState } from 'preact/hooks';
import type { AthleteMeasure, AthleteRecord } from '../../../../shared/schemas/coach/athlete-record.ts';
import { KILOGRAMS_PER_POUND } from '../../../../shared/units.ts';
import { formatDate, formatMass, formatNumber, formatShortDate, localToday } from '../../../app/format.ts';
import { preferences } from '../../../app/preferences.ts';
import { FaultBox } from '../../../parts/fault-box.tsx';
import { TextField } from '../../../parts/text-field.tsx';
import { TableScroll } from '../../../parts/table-scroll.tsx';
import { offerUndo } from '../../../parts/undo.tsx';
import { coachApi } from '../coach-api.ts';
import { NumberField } from '../parts/number-field.tsx';
import { useAttempt } from '../use-attempt.ts';

const t = phrasesOf('athletes', athletesWords);
const common = phrasesOf('common', commonWords);

interface MeasuresSectionProps {
  record: AthleteRecord;
  onChanged: () => Promise<void>;
}

/** Body mass, stature and leg length over time. */
export function MeasuresSection({ record, onChanged }: MeasuresSectionProps) {
  const { athlete, measures } = record;
  const [date, setDate] = useState(localToday());
  const [mass, setMass] = useState<number | null>(null);
  const [stature, setStature] = useState<number | null>(null);
  const [leg, setLeg] = useState<number | null>(null);
  const { fault, attempt } = useAttempt(onChanged);
  const pounds = preferences.value.mass === 'lb';
  const empty = mass === null && stature === null && leg === null;
  const add = () =>
    attempt(async () => {
      await coachApi.addMeasure(athlete.athlete_id, {
        date,
        body_mass_kg: mass === null ? null : mass * (pounds ? KILOGRAMS_PER_POUND : 1),
        stature_m: stature === null ? null : stature / 100,
        leg_length_m: leg === null ? null : leg / 100,
      });
      setMass(null);
      setStature(null);
      setLeg(null);
    });
  const remove = (measure: AthleteMeasure) =>
    attempt(async () => {
      await coachApi.deleteMeasure(measure.athlete_measure_id);
      offerUndo(t('measure_of_deleted', { date: formatDate(measure.date) }), async () => {
        await coachApi.restoreMeasure(measure.athlete_measure_id);
        await onChanged();
      });
    });
  return (
    <section class="sheet">
      <h2>{t('measures')}</h2>
      <p class="quiet">{t('needed_only_for_force_power')}</p>
      {fault && <FaultBox fault={fault} />}
      {measures.length > 0 && (
        <TableScroll label={t('body_measures')}>
          <table class="numbers">
            <caption class="visually-hidden">{t('body_measures_of', { name: athlete.name })}</caption>
            <thead>
              <tr>
                <th scope="col">{common('date')}</th>
                <th scope="col">{t('body_mass')}</th>
                <th scope="col">{t('stature')}</th>
                <th scope="col">{t('leg_length')}</th>
                <th scope="col">
                  <span class="visually-hidden">{common('delete_2')}</span>
                </th>
              </tr>
            </thead>
            <tbody>
              {[...measures].reverse().map((measure) => (
                <tr key={measure.athlete_measure_id}>
                  <th scope="row">{formatShortDate(measure.date)}</th>
                  <td>{formatMass(measure.body_mass_kg)}</td>
                  <td>{centimetres(measure.stature_m)}</td>
                  <td>{centimetres(measure.leg_length_m)}</td>
                  <td>
                    <button type="button" class="plain" onClick={() => void remove(measure)}>
                      {common('delete')}
                      <span class="visually-hidden">{t('measure_of', { date: formatDate(measure.date) })}</span>
                    </button>
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </TableScroll>
      )}
      <form
        class="measure-form"
        onSubmit={(event) => {
          event.preventDefault();
          if (!empty) void add();
        }}
      >
        <div class="field-grid">
          <TextField label={common('date_2')} type="date" value={date} onChange={setDate} required />
          <NumberField
            label={t('body_mass_2', { unit: pounds ? 'lb' : 'kg' })}
            value={mass}
            min={10}
            max={660}
            onChange={setMass}
            onEmpty={() => setMass(null)}
          />
          <NumberField
            label={t('stature_cm')}
            value={stature}
            min={50}
            max={260}
            onChange={setStature}
            onEmpty={() => setStature(null)}
          />
          <NumberField
            label={t('leg_length_cm')}
            value={leg}
            min={20}
            max={160}
            onChange={setLeg}
            onEmpty={() => setLeg(null)}
            help={t('hip_bone_to_floor')}
          />
        </div>
        <button type="submit" disabled={empty}>
          {t('add_measure')}
        </button>
      </form>
    </section>
  );
}

function centimetres(metres: number | null): string {
  return metres === null ? '–' : `${formatNumber(metres * 100, 1)} cm`;
}

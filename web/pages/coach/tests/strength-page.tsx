import { phrasesOf } from '../../../app/language.ts';
import { commonWords } from '../../../../shared/messages/en/view/common.ts';
import { testsWords } from '../../../../shared/messages/en/view/tests.ts';
import '../coach.css';
import { useState } from 'preact/hooks';
import { LIFTS, type Lift } from '../../../../shared/coach-words.ts';
import type { StrengthLog, StrengthRecord } from '../../../../shared/schemas/coach/strength.ts';
import type { AthleteRecord } from '../../../../shared/schemas/coach/athlete-record.ts';
import { KILOGRAMS_PER_POUND } from '../../../../shared/units.ts';
import { formatDate, formatMass, formatShortDate, localToday } from '../../../app/format.ts';
import { preferences } from '../../../app/preferences.ts';
import type { PageProps } from '../../../app/router.ts';
import { useResource } from '../../../app/use-resource.ts';
import { FaultBox } from '../../../parts/fault-box.tsx';
import { ResourceView } from '../../../parts/resource-view.tsx';
import { SelectField } from '../../../parts/select-field.tsx';
import { TextField } from '../../../parts/text-field.tsx';
import { TableScroll } from '../../../parts/table-scroll.tsx';
import { offerUndo } from '../../../parts/undo.tsx';
import { AthleteHead } from '../athletes/athlete-head.tsx';
import { coachApi, coachPaths } from '../coach-api.ts';
import { CautionList } from '../parts/caution-list.tsx';
import { NumberField } from '../parts/number-field.tsx';
import { useAttempt } from '../use-attempt.ts';
import { bothUnits, StrengthOverTime } from './strength-over-time.tsx';
import { Citation } from '../../../parts/citation.tsx';

const t = phrasesOf('tests', testsWords);
const common = phrasesOf('common', commonWords);

export const liftWords = (): Record<Lift, string> => ({
  parallel_squat: t('parallel_squat'),
  straight_leg_deadlift: t('straight_leg_deadlift'),
  deadlift: t('deadlift'),
  bench_press: t('bench_press'),
  power_clean: t('power_clean'),
  other: t('other_lift'),
});

/** The strength log, the squat against body mass, and strength beside sprint time. */
export default function StrengthPage({ params }: PageProps) {
  const record = useResource<AthleteRecord>(coachPaths.athlete(params.athlete_id));
  const log = useResource<StrengthLog>(coachPaths.strength(params.athlete_id));
  const { fault, attempt } = useAttempt(log.reload);
  const remove = (lifted: StrengthRecord) =>
    attempt(async () => {
      await coachApi.deleteStrength(lifted.strength_record_id);
      offerUndo(t('of_deleted', { lift: liftWords()[lifted.lift], date: formatDate(lifted.date) }), async () => {
        await coachApi.restoreStrength(lifted.strength_record_id);
        await log.reload();
      });
    });
  return (
    <ResourceView resource={log} name={t('the_strength_log')}>
      {(value) => (
        <>
          <AthleteHead athlete_id={params.athlete_id} name={record.value?.athlete.name ?? ''} />
          {fault && <FaultBox fault={fault} />}
          <section class="sheet">
            <h2>{t('squat_and_body_mass')}</h2>
            {value.ratios.map((ratio) => (
              <div key={ratio.code} class="ratio">
                <p>
                  <strong>{ratio.sentence}</strong>
                </p>
                <p>{ratio.note}</p>
                <p class="quiet small">
                  <Citation>{ratio.source}</Citation>
                </p>
              </div>
            ))}
            <p class="quiet">
              {t('body_mass', { body_mass_kg: formatMass(value.body_mass_kg) })}
              <a href={`#/athletes/${params.athlete_id}/person`}>{t('change_it_under_person')}</a>
            </p>
          </section>
          <StrengthOverTime over_time={value.over_time} />
          <AddLift athlete_id={Number(params.athlete_id)} onAdd={(work) => attempt(work)} />
          {value.records.length > 0 && (
            <div class="sheet">
              <TableScroll label={t('strength_log')}>
                <table class="numbers">
                  <caption class="visually-hidden">{t('strength_log_newest_first')}</caption>
                  <thead>
                    <tr>
                      <th scope="col" class="word">
                        {common('date')}
                      </th>
                      <th scope="col" class="word">
                        {t('lift')}
                      </th>
                      <th scope="col">{t('load')}</th>
                      <th scope="col">{t('sets_repetitions')}</th>
                      <th scope="col">
                        <span class="visually-hidden">{common('delete_2')}</span>
                      </th>
                    </tr>
                  </thead>
                  <tbody>
                    {value.records.map((lifted) => (
                      <tr key={lifted.strength_record_id}>
                        <th scope="row" class="word">
                          {formatShortDate(lifted.date)}
                        </th>
                        <td class="word">{liftWords()[lifted.lift]}</td>
                        <td>{bothUnits(lifted.load_kg)}</td>
                        <td>
                          {lifted.sets} × {lifted.repetitions}
                        </td>
                        <td>
                          <button type="button" class="plain" onClick={() => void remove(lifted)}>
                            {common('delete')}
                            <span class="visually-hidden">
                              {t('of', { lift: liftWords()[lifted.lift], date: formatDate(lifted.date) })}
                            </span>
                          </button>
                        </td>
                      </tr>
                    ))}
                  </tbody>
                </table>
              </TableScroll>
            </div>
          )}
          <CautionList cautions={value.cautions} />
        </>
      )}
    </ResourceView>
  );
}

function AddLift({
  athlete_id,
  onAdd,
}: {
  athlete_id: number;
  onAdd: (work: () => Promise<unknown>) => Promise<void>;
}) {
  const unit = preferences.value.mass;
  const [date, setDate] = useState(localToday());
  const [lift, setLift] = useState<Lift>('parallel_squat');
  const [load, setLoad] = useState<number | null>(null);
  const [sets, setSets] = useState(3);
  const [repetitions, setRepetitions] = useState(5);
  return (
    <form
      class="sheet"
      onSubmit={(event) => {
        event.preventDefault();
        if (load === null) return;
        const load_kg = load * (unit === 'lb' ? KILOGRAMS_PER_POUND : 1);
        void onAdd(async () => {
          await coachApi.addStrength({ athlete_id, date, lift, load_kg, load_unit: unit, sets, repetitions });
          setLoad(null);
        });
      }}
    >
      <h2>{t('add_a_lift')}</h2>
      <div class="field-grid">
        <SelectField
          label={t('lift_2')}
          value={lift}
          options={LIFTS.map((value) => ({ value, label: liftWords()[value] }))}
          onChange={setLift}
        />
        <NumberField
          label={t('load_2', { unit })}
          value={load}
          min={1}
          max={1300}
          onChange={setLoad}
          onEmpty={() => setLoad(null)}
          help={load === null ? undefined : bothUnits(load * (unit === 'lb' ? KILOGRAMS_PER_POUND : 1))}
        />
        <NumberField label={common('sets')} value={sets} min={1} max={30} whole onChange={setSets} />
        <NumberField
          label={common('repetitions_2')}
          value={repetitions}
          min={1}
          max={100}
          whole
          onChange={setRepetitions}
        />
        <TextField label={common('date_2')} type="date" value={date} onChange={setDate} required />
      </div>
      <button type="submit" disabled={load === null}>
        {t('add_lift')}
      </button>
    </form>
  );
}

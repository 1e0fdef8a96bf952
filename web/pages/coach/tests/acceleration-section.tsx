import { phrasesOf } from '../../../app/language.ts';
import { commonWords } from '../../../../shared/messages/en/view/common.ts';
import { testsWords } from '../../../../shared/messages/en/view/tests.ts';
import { useState } from 'preact/hooks';
import type { AccelerationView } from '../../../../shared/schemas/coach/sprint-test-view.ts';
import { formatDate, formatDistance, formatNumber, formatShortDate } from '../../../app/format.ts';
import { PlotFrame } from '../../../parts/plot/frame.tsx';
import { linePath } from '../../../parts/plot/marks.tsx';
import { TableScroll } from '../../../parts/table-scroll.tsx';
import { SelectField } from '../../../parts/select-field.tsx';

const t = phrasesOf('tests', testsWords);
const common = phrasesOf('common', commonWords);

/** How speed is built up, from a test's splits, and the force-speed line behind it. */
export function AccelerationSection({ accelerations }: { accelerations: AccelerationView[] }) {
  const [chosen, setChosen] = useState(accelerations.at(-1)!.sprint_test_id);
  const index = Math.max(
    0,
    accelerations.findIndex((view) => view.sprint_test_id === chosen),
  );
  const view = accelerations[index];
  // Only tests of one kind can be compared, and those of one day count once.
  const before =
    accelerations
      .slice(0, index)
      .filter((one) => one.series_key === view.series_key)
      .at(-1) ?? null;
  const force = view.force_velocity;
  const top = Math.max(...view.curve.map((point) => point.speed_mps), ...(before?.curve.map((p) => p.speed_mps) ?? []));
  const end = Math.max(view.curve.at(-1)!.distance_m, before?.curve.at(-1)?.distance_m ?? 0);
  return (
    <section class="sheet">
      <h2>{t('acceleration')}</h2>
      <div class="field-grid">
        <SelectField
          label={t('test')}
          value={String(view.sprint_test_id)}
          options={[...accelerations]
            .reverse()
            .map((item) => ({ value: String(item.sprint_test_id), label: formatDate(item.date) }))}
          onChange={(value) => setChosen(Number(value))}
        />
      </div>
      <PlotFrame
        description={t('speed_over_distance_of_the', { date: formatDate(view.date) })}
        height={260}
        x={{ min: 0, max: end, label: t('distance_m') }}
        y={{ min: 0, max: top * 1.08, label: t('speed_m_s') }}
      >
        {(area) => (
          <>
            {before && (
              <path
                class="earlier"
                d={linePath(
                  before.curve.map((p) => ({ x: p.distance_m, y: p.speed_mps })),
                  area,
                )}
              />
            )}
            <path
              class="series plain"
              d={linePath(
                view.curve.map((p) => ({ x: p.distance_m, y: p.speed_mps })),
                area,
              )}
            />
          </>
        )}
      </PlotFrame>
      {force && <ForceSpeedPlot view={view} before={before} />}
      {before && <p class="quiet small">{t('faint_the_test_before_of', { date: formatDate(before.date) })}</p>}
      <dl class="pairs">
        <dt>{t('maximum_speed')}</dt>
        <dd>
          {formatNumber(view.vmax_mps, 2)}
          {view.vmax_mps_u !== null && ` ± ${formatNumber(1.96 * view.vmax_mps_u, 2)}`} m/s
        </dd>
        <dt>{t('n_95_of_it_reached_after')}</dt>
        <dd>{formatDistance(Number(view.distance_95_m.toFixed(1)))}</dd>
        <dt>{t('time_constant')}</dt>
        <dd>{formatNumber(view.tau_s, 2)} s</dd>
        {force ? (
          <>
            <dt>{t('push_at_the_start')}</dt>
            <dd>
              {formatNumber(force.force_n_per_kg, 1)} {t('n_per_kg')}
            </dd>
            <dt>{t('speed_without_push')}</dt>
            <dd>{formatNumber(force.velocity_mps, 2)} m/s</dd>
            <dt>{t('greatest_power')}</dt>
            <dd>
              {formatNumber(force.power_w_per_kg, 1)} {t('w_per_kg')}
            </dd>
          </>
        ) : (
          <>
            <dt>{t('force_and_power')}</dt>
            <dd>{view.why_not || t('not_available')}</dd>
          </>
        )}
        <dt>{t('misfit_of_the_splits')}</dt>
        <dd>
          {view.residual_s === null
            ? t('not_told_times_for_unknowns', { points: view.points, unknowns: view.unknowns })
            : t('s_times_unknowns', {
                residual_s: formatNumber(view.residual_s, 3),
                points: view.points,
                unknowns: view.unknowns,
              })}
        </dd>
      </dl>
      <OverDays accelerations={accelerations.filter((one) => one.series_key === view.series_key)} />
      <p class="quiet small">{t('modelled_from_the_splits_as')}</p>
    </section>
  );
}

/** The line from the push at the start to the speed at which none is left, per kilogram of body mass. */
function ForceSpeedPlot({ view, before }: { view: AccelerationView; before: AccelerationView | null }) {
  const lines = [before?.force_velocity ?? null, view.force_velocity];
  const force = Math.max(...lines.map((line) => line?.force_n_per_kg ?? 0));
  const speed = Math.max(...lines.map((line) => line?.velocity_mps ?? 0));
  const ends = (line: NonNullable<AccelerationView['force_velocity']>) => [
    { x: 0, y: line.force_n_per_kg },
    { x: line.velocity_mps, y: 0 },
  ];
  return (
    <PlotFrame
      description={t('push_per_kilogram_over_speed', { date: formatDate(view.date) })}
      height={220}
      x={{ min: 0, max: speed * 1.05, label: t('speed_m_s') }}
      y={{ min: 0, max: force * 1.1, label: t('n_per_kg') }}
    >
      {(area) =>
        lines.map(
          (line, index) =>
            line && (
              <path key={index} class={index === 0 ? 'earlier' : 'series plain'} d={linePath(ends(line), area)} />
            ),
        )
      }
    </PlotFrame>
  );
}

/** What the splits told on every day of this kind of test, newest first. */
function OverDays({ accelerations }: { accelerations: AccelerationView[] }) {
  if (accelerations.length < 2) return null;
  const force = accelerations.some((one) => one.force_velocity !== null);
  return (
    <>
      <h3>{t('over_the_days')}</h3>
      <TableScroll label={t('acceleration_over_the_days')}>
        <table class="numbers">
          <caption class="visually-hidden">{t('acceleration_of_each_days_test')}</caption>
          <thead>
            <tr>
              <th scope="col" class="word">
                {common('date')}
              </th>
              <th scope="col">
                {t('maximum_speed')}
                <span class="unit">m/s</span>
              </th>
              <th scope="col">
                {t('n_95_of_it_after')}
                <span class="unit">m</span>
              </th>
              {force && (
                <>
                  <th scope="col">
                    {t('push_at_the_start')}
                    <span class="unit">{t('n_per_kg')}</span>
                  </th>
                  <th scope="col">
                    {t('greatest_power')}
                    <span class="unit">{t('w_per_kg')}</span>
                  </th>
                </>
              )}
            </tr>
          </thead>
          <tbody>
            {[...accelerations].reverse().map((one) => (
              <tr key={one.sprint_test_id}>
                <th scope="row" class="word">
                  {formatShortDate(one.date)}
                </th>
                <td>
                  {formatNumber(one.vmax_mps, 2)}
                  {one.vmax_mps_u !== null && ` ± ${formatNumber(1.96 * one.vmax_mps_u, 2)}`}
                </td>
                <td>{formatNumber(one.distance_95_m, 1)}</td>
                {force && (
                  <>
                    <td>{formatNumber(one.force_velocity?.force_n_per_kg, 1)}</td>
                    <td>{formatNumber(one.force_velocity?.power_w_per_kg, 1)}</td>
                  </>
                )}
              </tr>
            ))}
          </tbody>
        </table>
      </TableScroll>
    </>
  );
}

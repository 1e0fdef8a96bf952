import { useState } from 'preact/hooks';
import type { AccelerationView } from '../../../../shared/schemas/coach/sprint-test-view.ts';
import { formatDate, formatDistance, formatNumber, formatShortDate } from '../../../app/format.ts';
import { PlotFrame } from '../../../parts/plot/frame.tsx';
import { linePath } from '../../../parts/plot/marks.tsx';
import { TableScroll } from '../../../parts/table-scroll.tsx';
import { SelectField } from '../../../parts/select-field.tsx';

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
      <h2>Acceleration</h2>
      <div class="field-grid">
        <SelectField
          label="Test"
          value={String(view.sprint_test_id)}
          options={[...accelerations]
            .reverse()
            .map((item) => ({ value: String(item.sprint_test_id), label: formatDate(item.date) }))}
          onChange={(value) => setChosen(Number(value))}
        />
      </div>
      <PlotFrame
        description={`Speed over distance of the test of ${formatDate(view.date)}; the numbers are in the list below`}
        height={260}
        x={{ min: 0, max: end, label: 'distance (m)' }}
        y={{ min: 0, max: top * 1.08, label: 'speed (m/s)' }}
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
      {before && <p class="quiet small">Faint: the test before, of {formatDate(before.date)}.</p>}
      <dl class="pairs">
        <dt>maximum speed</dt>
        <dd>
          {formatNumber(view.vmax_mps, 2)}
          {view.vmax_mps_u !== null && ` ± ${formatNumber(1.96 * view.vmax_mps_u, 2)}`} m/s
        </dd>
        <dt>95 % of it reached after</dt>
        <dd>{formatDistance(Number(view.distance_95_m.toFixed(1)))}</dd>
        <dt>time constant</dt>
        <dd>{formatNumber(view.tau_s, 2)} s</dd>
        {force ? (
          <>
            <dt>push at the start</dt>
            <dd>{formatNumber(force.force_n_per_kg, 1)} N per kg</dd>
            <dt>speed without push</dt>
            <dd>{formatNumber(force.velocity_mps, 2)} m/s</dd>
            <dt>greatest power</dt>
            <dd>{formatNumber(force.power_w_per_kg, 1)} W per kg</dd>
          </>
        ) : (
          <>
            <dt>force and power</dt>
            <dd>{view.why_not || 'not available'}</dd>
          </>
        )}
        <dt>misfit of the splits</dt>
        <dd>
          {view.residual_s === null
            ? `not told: ${view.points} times for ${view.unknowns} unknowns fit any curve`
            : `${formatNumber(view.residual_s, 3)} s (${view.points} times, ${view.unknowns} unknowns)`}
        </dd>
      </dl>
      <OverDays accelerations={accelerations.filter((one) => one.series_key === view.series_key)} />
      <p class="quiet small">
        Modelled from the splits as a speed that rises and levels off, force after Samozino et al. 2016, doi
        10.1111/sms.12490. One or two splits say little about the shape; three or more are better.
      </p>
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
      description={`Push per kilogram over speed of the test of ${formatDate(view.date)}: a straight line between the numbers in the list below`}
      height={220}
      x={{ min: 0, max: speed * 1.05, label: 'speed (m/s)' }}
      y={{ min: 0, max: force * 1.1, label: 'N per kg' }}
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
      <h3>Over the days</h3>
      <TableScroll label="Acceleration over the days">
        <table class="numbers">
          <caption class="visually-hidden">Acceleration of each day's test, newest first</caption>
          <thead>
            <tr>
              <th scope="col" class="word">
                date
              </th>
              <th scope="col">
                maximum speed<span class="unit">m/s</span>
              </th>
              <th scope="col">
                95 % of it after<span class="unit">m</span>
              </th>
              {force && (
                <>
                  <th scope="col">
                    push at the start<span class="unit">N per kg</span>
                  </th>
                  <th scope="col">
                    greatest power<span class="unit">W per kg</span>
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

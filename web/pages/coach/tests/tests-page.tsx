import '../coach.css';
import { useState } from 'preact/hooks';
import type { SprintTest } from '../../../../shared/schemas/coach/sprint-test.ts';
import type { SprintSeries, SprintTestView } from '../../../../shared/schemas/coach/sprint-test-view.ts';
import type { Fault } from '../../../../shared/fault.ts';
import { formatDate, formatShortDate } from '../../../app/format.ts';
import type { PageProps } from '../../../app/router.ts';
import { useResource } from '../../../app/use-resource.ts';
import { faultOf } from '../../../client.ts';
import { EmptyState } from '../../../parts/empty-state.tsx';
import { FaultBox } from '../../../parts/fault-box.tsx';
import { ResourceView } from '../../../parts/resource-view.tsx';
import { TableScroll } from '../../../parts/table-scroll.tsx';
import { offerUndo } from '../../../parts/undo.tsx';
import { AthleteHead } from '../athletes/athlete-head.tsx';
import { coachApi, coachPaths } from '../coach-api.ts';
import { CautionList } from '../parts/caution-list.tsx';
import { AccelerationSection } from './acceleration-section.tsx';
import { SeriesPlot } from './series-plot.tsx';
import { TestDialog } from './test-dialog.tsx';

/** Did the watch move? An athlete's sprint tests, by method, with what counts as a real change. */
export default function TestsPage({ params }: PageProps) {
  const tests = useResource<SprintTestView>(coachPaths.sprintTests(params.athlete_id));
  const [editing, setEditing] = useState<SprintTest | 'new' | null>(null);
  const [fault, setFault] = useState<Fault | null>(null);
  const remove = async (test: SprintTest) => {
    setFault(null);
    try {
      await coachApi.deleteSprintTest(test.sprint_test_id);
      await tests.reload();
      offerUndo(`Sprint test of ${formatDate(test.date)} deleted`, async () => {
        await coachApi.restoreSprintTest(test.sprint_test_id);
        await tests.reload();
      });
    } catch (error) {
      setFault(faultOf(error));
    }
  };
  return (
    <ResourceView resource={tests} name="sprint tests">
      {(view) => (
        <>
          <AthleteHead athlete_id={params.athlete_id} name={view.name} />
          <div class="page-head">
            <p>
              <strong>Next sprint test: {view.next_test.date ? formatDate(view.next_test.date) : 'no date'}</strong>
              <br />
              <span class="quiet">{view.next_test.why}</span>
            </p>
            <button type="button" class="primary" onClick={() => setEditing('new')}>
              Record a test
            </button>
          </div>
          {fault && <FaultBox fault={fault} />}
          {view.series.length === 0 && (
            <EmptyState title="No sprint test yet">
              <p>
                A test says something only against its like: same distance, same start, same method, same timer. Hand
                and electronic times are kept apart: over 40 yd the same sprint came out 0.22 to 0.26 s faster by hand
                (Mann 2015, doi 10.1519/JSC.0000000000000941).
              </p>
            </EmptyState>
          )}
          {view.series.map((series) => (
            <SeriesSection key={series.key} series={series} onEdit={setEditing} />
          ))}
          {view.accelerations.length > 0 && <AccelerationSection accelerations={view.accelerations} />}
          <CautionList cautions={view.cautions} />
          {editing !== null && (
            <TestDialog
              athlete_id={Number(params.athlete_id)}
              test={editing === 'new' ? null : editing}
              like={view.series[0]?.tests.at(-1) ?? null}
              onClose={() => setEditing(null)}
              onDelete={(test) => {
                setEditing(null);
                void remove(test);
              }}
              onSaved={async () => {
                setEditing(null);
                await tests.reload();
              }}
            />
          )}
        </>
      )}
    </ResourceView>
  );
}

interface SeriesSectionProps {
  series: SprintSeries;
  onEdit: (test: SprintTest) => void;
}

function SeriesSection({ series, onEdit }: SeriesSectionProps) {
  const { since_last, since_first } = series;
  const windy = series.tests.some((test) => test.wind_mps !== null);
  const several = series.best_ids.length < series.tests.length;
  return (
    <section class="sheet">
      <h2>{series.title}</h2>
      {series.hand && (
        <p class="quiet">Timed by hand: compared with nothing but other hand times of the same course.</p>
      )}
      {since_last && (
        <p class={since_last.verdict === 'no real change' ? 'headline' : 'headline is-real'}>{since_last.sentence}</p>
      )}
      {since_first && <p>Since the first: {since_first.sentence}</p>}
      {since_last && <p class="quiet small">Limit: {since_last.threshold_source}.</p>}
      {several && <p class="quiet small">Of several runs on one day the fastest counts.</p>}
      {series.tests.length > 1 && <SeriesPlot series={series} />}
      <TableScroll label={`Tests, ${series.title}`}>
        <table class="numbers">
          <caption class="visually-hidden">Tests of this series, newest first</caption>
          <thead>
            <tr>
              <th scope="col" class="word">
                date
              </th>
              <th scope="col" class="word">
                time
              </th>
              {windy && <th scope="col">wind</th>}
              <th scope="col">
                <span class="visually-hidden">change</span>
              </th>
            </tr>
          </thead>
          <tbody>
            {[...series.tests].reverse().map((test) => (
              <tr key={test.sprint_test_id}>
                <th scope="row" class="word">
                  {formatShortDate(test.date)}
                </th>
                <td class="word">
                  <strong>{test.time_s.toFixed(2)} s</strong>
                  {test.splits.length > 0 && (
                    <span class="quiet">
                      , {test.splits.length} {test.splits.length === 1 ? 'split' : 'splits'}
                    </span>
                  )}
                  {test.watches_s.length > 1 && (
                    <span class="quiet"> of {test.watches_s.map((time) => time.toFixed(2)).join(', ')}</span>
                  )}
                </td>
                {windy && (
                  <td>
                    {test.wind_mps === null
                      ? '–'
                      : `${test.wind_mps > 0 ? '+' : ''}${test.wind_mps.toFixed(1)} m/s${test.wind_mps > 2 ? ', no record wind' : ''}`}
                  </td>
                )}
                <td>
                  <button type="button" class="plain" onClick={() => onEdit(test)}>
                    Change<span class="visually-hidden"> test of {formatDate(test.date)}</span>
                  </button>
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </TableScroll>
    </section>
  );
}

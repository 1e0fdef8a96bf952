import { phrasesOf } from '../../../app/language.ts';
import { commonWords } from '../../../../shared/messages/en/view/common.ts';
import { testsWords } from '../../../../shared/messages/en/view/tests.ts';
import '../coach.css';
import { useState } from 'preact/hooks';
import type { SprintTest } from '../../../../shared/schemas/coach/sprint-test.ts';
import type { SprintSeries, SprintTestView } from '../../../../shared/schemas/coach/sprint-test-view.ts';
import type { Fault } from '../../../../shared/fault.ts';
import { formatDate, formatShortDate, formatNumber } from '../../../app/format.ts';
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

const t = phrasesOf('tests', testsWords);
const common = phrasesOf('common', commonWords);

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
      offerUndo(t('sprint_test_of_deleted', { date: formatDate(test.date) }), async () => {
        await coachApi.restoreSprintTest(test.sprint_test_id);
        await tests.reload();
      });
    } catch (error) {
      setFault(faultOf(error));
    }
  };
  return (
    <ResourceView resource={tests} name={t('sprint_tests')}>
      {(view) => (
        <>
          <AthleteHead athlete_id={params.athlete_id} name={view.name} />
          <div class="page-head">
            <p>
              <strong>
                {t('next_sprint_test')}
                {view.next_test.date ? formatDate(view.next_test.date) : common('no_date')}
              </strong>
              <br />
              <span class="quiet">{view.next_test.why}</span>
            </p>
            <button type="button" class="primary" onClick={() => setEditing('new')}>
              {t('record_a_test')}
            </button>
          </div>
          {fault && <FaultBox fault={fault} />}
          {view.series.length === 0 && (
            <EmptyState title={t('no_sprint_test_yet')}>
              <p>{t('a_test_says_something_only')}</p>
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
      {series.hand && <p class="quiet">{t('timed_by_hand_compared_with')}</p>}
      {since_last && (
        <p class={since_last.verdict === 'no real change' ? 'headline' : 'headline is-real'}>{since_last.sentence}</p>
      )}
      {since_first && <p>{t('since_the_first', { sentence: since_first.sentence })}</p>}
      {since_last && <p class="quiet small">{t('limit', { threshold_source: since_last.threshold_source })}</p>}
      {several && <p class="quiet small">{t('of_several_runs_on_one')}</p>}
      {series.tests.length > 1 && <SeriesPlot series={series} />}
      <TableScroll label={t('tests', { title: series.title })}>
        <table class="numbers">
          <caption class="visually-hidden">{t('tests_of_this_series_newest')}</caption>
          <thead>
            <tr>
              <th scope="col" class="word">
                {common('date')}
              </th>
              <th scope="col" class="word">
                {common('time')}
              </th>
              {windy && <th scope="col">{t('wind')}</th>}
              <th scope="col">
                <span class="visually-hidden">{t('change')}</span>
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
                  <strong>{formatNumber(test.time_s, 2)} s</strong>
                  {test.splits.length > 0 && (
                    <span class="quiet">
                      , {test.splits.length} {test.splits.length === 1 ? 'split' : 'splits'}
                    </span>
                  )}
                  {test.watches_s.length > 1 && (
                    <span class="quiet">
                      {t('of_2', { watches_s: test.watches_s.map((time) => formatNumber(time, 2)).join(', ') })}
                    </span>
                  )}
                </td>
                {windy && (
                  <td>
                    {test.wind_mps === null
                      ? '–'
                      : `${test.wind_mps > 0 ? '+' : ''}${formatNumber(test.wind_mps, 1)} m/s${test.wind_mps > 2 ? t('no_record_wind') : ''}`}
                  </td>
                )}
                <td>
                  <button type="button" class="plain" onClick={() => onEdit(test)}>
                    {common('change')}
                    <span class="visually-hidden">{t('test_of', { date: formatDate(test.date) })}</span>
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

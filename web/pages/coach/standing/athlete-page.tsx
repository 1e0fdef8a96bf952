import { phrasesOf } from '../../../app/language.ts';
import { athletesWords } from '../../../../shared/messages/en/view/athletes.ts';
import '../coach.css';
import type { AthleteRecord } from '../../../../shared/schemas/coach/athlete-record.ts';
import type { AthleteNow, NumberNow } from '../../../../shared/schemas/coach/standing.ts';
import { formatShortDate, localToday } from '../../../app/format.ts';
import type { PageProps } from '../../../app/router.ts';
import { useResource } from '../../../app/use-resource.ts';
import { ResourceView } from '../../../parts/resource-view.tsx';
import { AthleteHead } from '../athletes/athlete-head.tsx';
import { FocusSection } from '../athletes/focus-section.tsx';
import { coachPaths } from '../coach-api.ts';
import { CoursePlot } from '../course/course-plot.tsx';
import { CautionList } from '../parts/caution-list.tsx';
import { LevelLegend } from '../parts/level-strip.tsx';
import { markOf } from '../parts/verdict-mark.tsx';
import { courseText, displayQuantity } from '../quantity-text.ts';
import { AthleteSessions } from './athlete-sessions.tsx';
import { OthersSection } from './others-section.tsx';
import { NumberNowTile } from './number-now.tsx';
import { WhatIsNext } from './what-is-next.tsx';

const t = phrasesOf('athletes', athletesWords);

/** How one athlete stands now: the sentence first, then three numbers, then tests and what is next. */
export default function AthletePage({ params }: PageProps) {
  const now = useResource<AthleteNow>(coachPaths.now(params.athlete_id));
  const record = useResource<AthleteRecord>(coachPaths.athlete(params.athlete_id));
  const reload = async () => {
    await Promise.all([now.reload(), record.reload()]);
  };
  return (
    <ResourceView resource={now} name={t('how_the_athlete_stands')}>
      {(value) => (
        <>
          <AthleteHead athlete_id={params.athlete_id} name={value.name} />
          <Standing now={value} />
          <OthersSection athlete_id={value.athlete_id} />
          <AthleteSessions athlete_id={value.athlete_id} name={value.name} sessions={value.sessions} />
          {record.value && (
            <div class="no-print">
              <FocusSection record={record.value} onChanged={reload} />
            </div>
          )}
          <p class="actions no-print">
            <a class="button" href={`#/reports/month/${params.athlete_id}/${localToday().slice(0, 7)}`}>
              {t('this_months_page_for', { name: value.name })}
            </a>
            <a class="button" href={`#/compare?kind=blocks&athlete_id=${params.athlete_id}`}>
              {t('compare_two_blocks')}
            </a>
          </p>
          <CautionList cautions={value.cautions} />
        </>
      )}
    </ResourceView>
  );
}

function Standing({ now }: { now: AthleteNow }) {
  const { focus, numbers, returning, condition } = now;
  const lead = numbers[0];
  const href = (quantity: string) =>
    `#/athletes/${now.athlete_id}/course?quantity=${quantity}${condition ? `&condition=${encodeURIComponent(condition.key)}` : ''}`;
  return (
    <>
      <p class="standing-focus">
        {focus ? (
          <>
            {t('works_on_2')}
            <a href={`#/athletes/${now.athlete_id}/focuses/${focus.focus}`}>{focus.name}</a>
            {t('since_week_2', { from_date: formatShortDate(focus.from_date), weeks: Math.floor(focus.weeks) + 1 })}
          </>
        ) : (
          t('no_focus_chosen_yet')
        )}
      </p>
      {returning && (
        <p class="standing-sentence">
          {t('returning_from_an_injury_since', { since_date: formatShortDate(returning.since_date) })}
        </p>
      )}
      {!returning && lead && <p class={`standing-sentence ${markOf(leadVerdict(lead))}`}>{lead.course.sentence}</p>}
      {!lead && <p>{t('nothing_measured_yet_from_the', { name: now.name })}</p>}
      {lead && (
        <section aria-labelledby="numbers-now">
          <h2 id="numbers-now" class="visually-hidden">
            {t('three_numbers')}
          </h2>
          <div class="numbers-now">
            {numbers.map((number) => (
              <NumberNowTile
                key={number.quantity}
                number={number}
                focus={number.quantity === focus?.quantity}
                target={number.quantity === focus?.quantity ? focus.target : null}
                returning={returning !== null}
                href={href(number.quantity)}
              />
            ))}
          </div>
          {!returning && <LevelLegend aim={focus?.target !== null && focus?.target !== undefined} />}
          {condition && (
            <p class="quiet small">
              {t('at')}
              {condition.effort_percent === null
                ? t('unknown_effort')
                : t('effort', { effort_percent: condition.effort_percent })}
              {condition.distance_m !== null && t('over', { distance_m: courseText(condition.distance_m) })}
              {t('other_efforts_and_courses_under')}
              <a href={href(lead.quantity)}>{t('over_time')}</a>.
            </p>
          )}
        </section>
      )}
      <div class="standing-two">
        {lead && !returning && lead.course.sessions.length > 1 && (
          <section aria-labelledby="the-weeks">
            <h2 id="the-weeks">{t('the_weeks', { label: displayQuantity(lead.quantity).label })}</h2>
            <CoursePlot course={lead.course} height={260} withTrend={false} />
          </section>
        )}
        <WhatIsNext now={now} />
      </div>
    </>
  );
}

/** The block's change as a verdict has it. */
function leadVerdict({ course: { block } }: NumberNow) {
  return block?.beyond ? { kind: 'changed' as const, wanted: block.wanted } : { kind: null, wanted: null };
}

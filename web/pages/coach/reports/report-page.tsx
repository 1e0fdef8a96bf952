import { phrasesOf } from '../../../app/language.ts';
import { courseWords } from '../../../../shared/messages/en/view/course.ts';
import '../coach.css';
import type { Report } from '../../../../shared/schemas/coach/report.ts';
import { formatDate, localToday } from '../../../app/format.ts';
import { preferences } from '../../../app/preferences.ts';
import type { PageProps } from '../../../app/router.ts';
import { useResource } from '../../../app/use-resource.ts';
import { ResourceView } from '../../../parts/resource-view.tsx';
import { CautionList } from '../parts/caution-list.tsx';
import { PictureFigure } from './picture-figure.tsx';

const t = phrasesOf('course', courseWords);

/** One page to hand to an athlete, as it prints. The route's parameters name what it is about. */
export default function ReportPage({ params }: PageProps) {
  const base = `/coach/reports/${addressOf(params)}`;
  const query = `?length=${preferences.value.length}&today=${localToday()}`;
  const report = useResource<Report>(base + query);
  return (
    <ResourceView resource={report} name={t('the_report')}>
      {(value) => (
        <article class="report">
          <header>
            <h1>{value.name}</h1>
            <p class="lead">{value.title}</p>
          </header>
          <p class="actions no-print">
            <a class="button primary" href={`/api${base}/page.pdf${query}`} target="_blank" rel="noreferrer">
              PDF
            </a>
            <button type="button" onClick={() => window.print()}>
              {t('print')}
            </button>
            {params.month && <MonthSteps athlete_id={params.athlete_id} month={params.month} />}
          </p>
          <ul class="report-sentences">
            {value.sentences.map((sentence) => (
              <li key={sentence}>{sentence}</li>
            ))}
          </ul>
          {value.pictures.length > 0 && <p class="picture-hint quiet small">{t('move_pictures_sideways')}</p>}
          {value.pictures.map((picture) => (
            <PictureFigure key={picture.title} picture={picture} />
          ))}
          <p class="quiet small">{t('made_on_grey_is_what', { local_today: formatDate(localToday()) })}</p>
          <CautionList cautions={value.cautions} />
        </article>
      )}
    </ResourceView>
  );
}

function addressOf(params: PageProps['params']): string {
  if (params.repetition_id) return `repetition/${params.repetition_id}`;
  if (params.session_id) return `session/${params.session_id}/${params.athlete_id}`;
  return `month/${params.athlete_id}/${params.month ?? localToday().slice(0, 7)}`;
}

function MonthSteps({ athlete_id, month }: { athlete_id: string; month: string }) {
  const [year, number] = month.split('-').map(Number);
  const name = (shift: number) => {
    const date = new Date(Date.UTC(year, number - 1 + shift, 1));
    return date.toISOString().slice(0, 7);
  };
  return (
    <>
      <a class="button" href={`#/reports/month/${athlete_id}/${name(-1)}`}>
        {t('month_before')}
      </a>
      <a class="button" href={`#/reports/month/${athlete_id}/${name(1)}`}>
        {t('month_after')}
      </a>
    </>
  );
}

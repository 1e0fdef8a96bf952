import './archive.css';
import { archiveWords } from '../../../shared/messages/en/view/archive.ts';
import type { AccessState } from '../../../shared/schemas/access.ts';
import type { ArchiveOverview, ArchiveWork } from '../../../shared/schemas/archive.ts';
import { formatClock } from '../../app/format.ts';
import { phrasesOf } from '../../app/language.ts';
import { useRefresh } from '../../app/use-refresh.ts';
import { useResource } from '../../app/use-resource.ts';
import { ResourceView } from '../../parts/resource-view.tsx';
import { accessPaths, keepsArchive } from '../access/access-api.ts';
import { archivePaths, leftOf, LOOK_MS, sizeText, when } from './archive-api.ts';
import { ClubsTable } from './clubs-table.tsx';
import { headlineOf } from './headline.ts';
import { RunsList } from './runs-list.tsx';
import { StartRun } from './start-run.tsx';
import { WorkersList } from './workers-list.tsx';

const t = phrasesOf('archive', archiveWords);

/** A programme's archive as its keeper sees it: what needs a hand first, then clubs, work, workers, norms. */
export default function ArchivePage() {
  const overview = useResource<ArchiveOverview>(archivePaths.overview);
  const work = useResource<ArchiveWork>(archivePaths.work);
  const me = useResource<AccessState>(accessPaths.me);
  const busy = work.value?.runs.some((run) => leftOf(run) > 0) ?? false;
  useRefresh(work.reload, busy ? LOOK_MS.busy : LOOK_MS.quiet);
  useRefresh(overview.reload, 60_000);
  const keeps = keepsArchive(me.value);
  return (
    <ResourceView resource={overview} name={t('archive')}>
      {({ name, level, size_bytes, clubs, counted_utc, norms }) => (
        <>
          <h1>{name}</h1>
          <p class="headline">{headlineOf(clubs, work.value, Date.now())}</p>
          <p class="quiet">
            {t('size_and_level', {
              size: sizeText(size_bytes),
              level: level === 'named' ? t('level_named') : t('level_pseudonyms'),
            })}
          </p>
          <section aria-labelledby="clubs">
            <h2 id="clubs">{t('clubs')}</h2>
            <ClubsTable clubs={clubs} />
            <p class="small quiet">{t('counted_at', { time: formatClock(counted_utc) })}</p>
          </section>
          <ResourceView resource={work} name={t('archive')}>
            {({ runs, workers }) => (
              <>
                <RunsList runs={runs} keeps={keeps} onChanged={work.reload} />
                {keeps && <StartRun clubs={clubs} onStarted={work.reload} />}
                <WorkersList workers={workers} />
              </>
            )}
          </ResourceView>
          <section aria-labelledby="norms">
            <h2 id="norms">{t('norms')}</h2>
            {norms === null ? (
              <p>
                {t('no_norms')}
                <code>cinderlane archive publish</code>
              </p>
            ) : (
              <p class="break-anywhere">
                {t('norms_published', { when: when(norms.published_utc), bands: norms.bands, key: norms.fingerprint })}
              </p>
            )}
          </section>
        </>
      )}
    </ResourceView>
  );
}

import './archive.css';
import { archiveWords } from '../../../shared/messages/en/view/archive.ts';
import type { AccessState } from '../../../shared/schemas/access.ts';
import type { ArchiveRunReport } from '../../../shared/schemas/archive.ts';
import { phrasesOf, speech } from '../../app/language.ts';
import type { PageProps } from '../../app/router.ts';
import { useRefresh } from '../../app/use-refresh.ts';
import { useResource } from '../../app/use-resource.ts';
import { ResourceView } from '../../parts/resource-view.tsx';
import { accessPaths, keepsArchive } from '../access/access-api.ts';
import { AcceptRun } from './accept-run.tsx';
import { archivePaths, leftOf, LOOK_MS, runName } from './archive-api.ts';
import { ChangesTable } from './changes-table.tsx';
import { RetryButton } from './retry-button.tsx';
import { RunProgress } from './run-progress.tsx';
import { SharesTable } from './shares-table.tsx';

const t = phrasesOf('archive', archiveWords);

/** One run: how far it is, what failed and why, and its results beside the earlier ones, to be accepted as a whole. */
export default function RunPage({ params }: PageProps) {
  const run = useResource<ArchiveRunReport>(archivePaths.run(params.run_id));
  const me = useResource<AccessState>(accessPaths.me);
  const busy = run.value !== null && leftOf(run.value) > 0;
  useRefresh(run.reload, busy ? LOOK_MS.busy : null);
  const keeps = keepsArchive(me.value);
  return (
    <ResourceView resource={run} name={t('run')}>
      {(value) => (
        <>
          <p class="trail">
            <a href="#/archive">{t('back')}</a>
          </p>
          <h1>{runName(value)}</h1>
          <RunProgress run={value} />
          <Failures report={value} keeps={keeps} onChanged={run.reload} />
          {value.kind === 'reanalysis' ? (
            <section>
              <h2>{t('beside')}</h2>
              {busy ? <p>{t('beside_later')}</p> : <ChangesTable changes={value.changes} />}
              {keeps && <AcceptRun run={value} onChanged={run.reload} />}
            </section>
          ) : (
            <p>
              {t('collect_with')}
              <code>cinderlane work collect --run {value.run_id.slice(0, 13)} --out DIR</code>
            </p>
          )}
          {value.workers.length > 0 && <SharesTable shares={value.workers} />}
          <p class="small quiet">{t('made_with', { version: value.version })}</p>
          {value.settings !== null && (
            <>
              <h2>{t('settings_of_run')}</h2>
              <pre class="run-settings">{JSON.stringify(value.settings, null, 1)}</pre>
            </>
          )}
        </>
      )}
    </ResourceView>
  );
}

interface FailuresProps {
  report: ArchiveRunReport;
  keeps: boolean;
  onChanged: () => Promise<void>;
}

function Failures({ report, keeps, onChanged }: FailuresProps) {
  if (report.failures.length === 0) return null;
  return (
    <section aria-labelledby="failures">
      <h2 id="failures">{t('failures')}</h2>
      <ul class="plain-lines">
        {report.failures.map(({ n, fault }) => {
          const { code, message, hint } = speech.value.tell(fault);
          return (
            <li key={code}>
              <strong>{t('times', { n })}</strong> {message} {hint}
            </li>
          );
        })}
      </ul>
      {keeps && <RetryButton run_id={report.run_id} onChanged={onChanged} />}
    </section>
  );
}

import { archiveWords } from '../../../shared/messages/en/view/archive.ts';
import type { ArchiveRun } from '../../../shared/schemas/archive.ts';
import { phrasesOf } from '../../app/language.ts';
import { runName } from './archive-api.ts';
import { RetryButton } from './retry-button.tsx';
import { RunProgress } from './run-progress.tsx';

const t = phrasesOf('archive', archiveWords);

interface RunsListProps {
  runs: ArchiveRun[];
  keeps: boolean;
  onChanged: () => Promise<void>;
}

/** What workers were asked for, the newest first. */
export function RunsList({ runs, keeps, onChanged }: RunsListProps) {
  return (
    <section aria-labelledby="runs">
      <h2 id="runs">{t('runs')}</h2>
      {runs.length === 0 ? (
        <p>{t('no_runs')}</p>
      ) : (
        <ul class="lines runs">
          {runs.map((run) => (
            <li key={run.run_id} class="run-line">
              <a href={`#/archive/runs/${run.run_id}`}>{runName(run)}</a>
              <RunProgress run={run} />
              {keeps && run.failed > 0 && <RetryButton run_id={run.run_id} onChanged={onChanged} />}
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}

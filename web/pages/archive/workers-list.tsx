import { archiveWords } from '../../../shared/messages/en/view/archive.ts';
import type { ArchiveWorker } from '../../../shared/schemas/archive.ts';
import { phrasesOf } from '../../app/language.ts';
import { when } from './archive-api.ts';

const t = phrasesOf('archive', archiveWords);

/** Who works now; those that ended lately behind a word. */
export function WorkersList({ workers }: { workers: ArchiveWorker[] }) {
  const living = workers.filter(({ lives }) => lives);
  const ended = workers.filter(({ lives }) => !lives);
  return (
    <section aria-labelledby="workers" class="workers">
      <h2 id="workers">{t('workers')}</h2>
      {living.length === 0 ? (
        <p>
          {t('no_workers')}
          <code>cinderlane work --archive ADDRESS</code>
        </p>
      ) : (
        <Lines workers={living} />
      )}
      {ended.length > 0 && (
        <details>
          <summary>{t('ended_ones', { n: ended.length })}</summary>
          <Lines workers={ended} />
        </details>
      )}
    </section>
  );
}

function Lines({ workers }: { workers: ArchiveWorker[] }) {
  return (
    <ul class="plain-lines">
      {workers.map(({ worker_number, machine, version, last_seen_utc }) => (
        <li key={worker_number}>
          {t('worker_line', { number: worker_number, machine, version })}
          <span class="quiet small"> {t('last_seen', { when: when(last_seen_utc) })}</span>
        </li>
      ))}
    </ul>
  );
}

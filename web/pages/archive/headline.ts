import { archiveWords } from '../../../shared/messages/en/view/archive.ts';
import type { ArchiveClub, ArchiveWork } from '../../../shared/schemas/archive.ts';
import { phrasesOf } from '../../app/language.ts';
import { leftOf } from './archive-api.ts';

const t = phrasesOf('archive', archiveWords);

const WEEK_MS = 7 * 86_400_000;

/** What needs a hand, most pressing first; that all is well where nothing does. */
export function headlineOf(clubs: ArchiveClub[], work: ArchiveWork | null, now_ms: number): string {
  const silent = clubs.filter(
    ({ last_push_utc }) => last_push_utc === null || now_ms - Date.parse(last_push_utc) >= WEEK_MS,
  );
  const runs = work?.runs ?? [];
  const left = runs.reduce((sum, run) => sum + leftOf(run), 0);
  const failed = runs.reduce((sum, run) => sum + run.failed, 0);
  const workers = work?.workers.filter(({ lives }) => lives).length ?? 0;
  const sentences = [
    failed > 0 && t('jobs_failed', { n: failed }),
    left > 0 && (workers === 0 ? t('nobody_works', { left }) : t('under_way', { left, workers })),
    clubs.length === 0
      ? t('no_clubs')
      : silent.length > 0
        ? t('silent_clubs', { clubs: silent.map(({ name }) => name) })
        : t('all_sent', { n: clubs.length }),
    work !== null && left === 0 && t('nothing_waits'),
  ];
  return sentences.filter(Boolean).join(' ');
}

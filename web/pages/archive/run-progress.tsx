import { archiveWords } from '../../../shared/messages/en/view/archive.ts';
import type { ArchiveRun } from '../../../shared/schemas/archive.ts';
import { phrasesOf } from '../../app/language.ts';

const t = phrasesOf('archive', archiveWords);

/** How far a run is: a bar of what is done and what failed, and the same in words. */
export function RunProgress({ run }: { run: ArchiveRun }) {
  const { total, done, working, waiting, failed, accepted_utc } = run;
  const words = [
    t('progress', { done, total }),
    ...(working > 0 ? [t('working', { n: working })] : []),
    ...(waiting > 0 ? [t('waiting', { n: waiting })] : []),
    ...(failed > 0 ? [t('failed', { n: failed })] : []),
    ...(accepted_utc === null ? [] : [t('accepted')]),
  ].join(', ');
  const share = (n: number) => (total === 0 ? 0 : (100 * n) / total);
  return (
    <div class="run-progress">
      <svg viewBox="0 0 100 2" preserveAspectRatio="none" aria-hidden="true">
        <rect class="run-all" width="100" height="2" />
        <rect class="run-done" width={share(done)} height="2" />
        <rect class="run-failed" x={share(done)} width={share(failed)} height="2" />
      </svg>
      <p>{words}</p>
    </div>
  );
}

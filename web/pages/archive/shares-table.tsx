import { archiveWords } from '../../../shared/messages/en/view/archive.ts';
import type { WorkerShare } from '../../../shared/schemas/archive.ts';
import { formatNumber } from '../../app/format.ts';
import { phrasesOf } from '../../app/language.ts';
import { TableScroll } from '../../parts/table-scroll.tsx';
import { countText } from './archive-api.ts';

const t = phrasesOf('archive', archiveWords);

const PARTS = [
  ['read_s', 'reading'],
  ['analysed_s', 'analysing'],
  ['stored_s', 'storing'],
] as const;

/** What each worker did of a run, how fast, and what a job's time went into. */
export function SharesTable({ shares }: { shares: WorkerShare[] }) {
  return (
    <section>
      <h2>{t('by_worker')}</h2>
      <TableScroll label={t('by_worker')}>
        <table class="numbers">
          <thead>
            <tr>
              <th class="word">{t('worker')}</th>
              <th class="word">{t('machine')}</th>
              <th>{t('done')}</th>
              <th>{t('per_hour')}</th>
              {PARTS.map(([name, word]) => (
                <th key={name}>
                  {t(word)}
                  <span class="unit">{t('seconds_a_job')}</span>
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {shares.map((share) => (
              <tr key={share.worker_number}>
                <th scope="row" class="word">
                  {share.worker_number}
                </th>
                <td class="word">{share.machine}</td>
                <td>{countText(share.done)}</td>
                <td>{share.span_s > 0 ? countText(Math.round((3600 * share.done) / share.span_s)) : '–'}</td>
                {PARTS.map(([name]) => (
                  <td key={name}>{formatNumber(share[name] / share.done, 3)}</td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </TableScroll>
    </section>
  );
}

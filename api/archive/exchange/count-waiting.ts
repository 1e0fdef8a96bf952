import { KINDS } from '../rows/kinds.ts';
import type { Exchange } from './exchange.ts';
import { archivedBulk, repetitionsWithNews } from './push-measured.ts';
import { waitingRows } from './push-rows.ts';

/** What the next push would send. */
export interface Waiting {
  /** Repetitions with a recording or a result that the archive lacks. */
  repetitions: number;
  /** Other rows that it lacks or has otherwise. */
  rows: number;
}

/** Counts what waits to be sent, as `push` would count what it sent. Nothing is changed, here or there. */
export async function countWaiting(x: Exchange): Promise<Waiting> {
  const news = repetitionsWithNews(x, await archivedBulk(x));
  let rows = 0;
  for (const kind of KINDS) {
    const { changed, gone } = await waitingRows(x, kind);
    const withNews =
      kind.table === 'repetitions' ? changed.filter(({ row }) => news.has(Number(row.local_key))).length : 0;
    rows += changed.length - withNews + gone.length;
  }
  return { repetitions: news.size, rows };
}

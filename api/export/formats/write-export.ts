import type { ResearchExport } from '../../../shared/schemas/export.ts';
import type { Store } from '../../store/store.ts';
import { checksumsPath, withChecksums } from '../checksums.ts';
import { writeMotionBids } from '../motion-bids/write-motion-bids.ts';
import { select } from '../selection.ts';
import type { ExportSink } from '../sink.ts';
import { writeTables } from '../tables/write-tables.ts';

/**
 * Writes a recorded export's files. Consent is looked up again: one withdrawn since then is respected.
 * @throws FaultError EXPORT_EMPTY
 */
export async function writeExport(
  store: Store,
  { order, created_utc }: ResearchExport,
  sink: ExportSink,
): Promise<void> {
  const selection = select(store, order);
  const checked = withChecksums(sink);
  if (order.kind === 'tables') await writeTables(store, selection, order, created_utc, checked.sink);
  else await writeMotionBids(store, selection, order, checked.sink);
  await checked.write(checksumsPath(order.kind));
}

import type { ResearchExport } from '../../../shared/schemas/export.ts';
import type { Store } from '../../store/store.ts';
import { checksumsPath, withChecksums } from '../checksums.ts';
import { writeMotionBids } from '../motion-bids/write-motion-bids.ts';
import { levelOf } from '../privacy/levels.ts';
import { openSelection } from '../privacy/open-selection.ts';
import { Pseudonyms } from '../pseudonyms.ts';
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
  const open = levelOf(order) === 'open';
  const found = select(store, order);
  const selection = open ? openSelection(found, new Pseudonyms(store)) : found;
  const checked = withChecksums(sink);
  // At the open level neither names nor free text leave, whatever else the order asks for.
  const asked = open ? { ...order, with_names: undefined, with_free_text: undefined, shift_dates: undefined } : order;
  if (order.kind === 'tables') await writeTables(store, selection, asked, created_utc, checked.sink);
  else await writeMotionBids(store, selection, asked, checked.sink);
  await checked.write(checksumsPath(order.kind));
}

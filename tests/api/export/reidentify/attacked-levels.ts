import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { recordExport } from '../../../../api/export/export-records.ts';
import { writeExport } from '../../../../api/export/formats/write-export.ts';
import { folderSink } from '../../../../api/export/sink.ts';
import type { TestApi } from '../../../helpers/test-api.ts';
import { attack, type AttackResult, readSet } from './attacks.ts';
import { makeClub } from './make-club.ts';

/** What every attack finds in an invented club's exports, by level. */
export async function attackedLevels(
  api: TestApi,
  athletes: number,
  sessions: number,
): Promise<Record<'pseudonyms' | 'dates moved' | 'open', AttackResult[]>> {
  const known = await makeClub(api, athletes, sessions);
  const attacked = async (order: { level?: 'open'; shift_dates?: boolean }) => {
    const folder = mkdtempSync(join(tmpdir(), 'cinderlane-attacked-'));
    await writeExport(api.store, recordExport(api.store, { kind: 'tables', ...order }), folderSink(folder));
    const results = attack(readSet(folder, api.store, known));
    rmSync(folder, { recursive: true });
    return results;
  };
  return {
    pseudonyms: await attacked({}),
    'dates moved': await attacked({ shift_dates: true }),
    open: await attacked({ level: 'open' }),
  };
}

/** Whether an attack found more than guessing would: one of a set in its place is expected, five are met once in 250 sets. */
export function moreThanChance({ found, attack: name }: AttackResult): boolean {
  return found > (name === 'order of the rows' ? 4 : 0);
}

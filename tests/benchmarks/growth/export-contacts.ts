import { rmSync } from 'node:fs';
import { exportSeason } from '../export-season.ts';

const ATHLETES = 30;

/** @param contacts in the store, about */
export async function measure(contacts: number) {
  const { folder, ...taken } = await exportSeason({ athletes: ATHLETES, contacts });
  rmSync(folder, { recursive: true });
  return taken;
}

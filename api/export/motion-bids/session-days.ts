import { existsSync, readdirSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { standInDate } from '../../../shared/dates.ts';
import { parseStem } from './names.ts';
import { readTsv } from './read-motion-bids.ts';

const INSTANT = /^\d{4}-\d{2}-\d{2}([T ]|$)/;

/** Day that the scans file, else the sessions file, gives a motion file; null where neither does. */
export function dayOf(folder: string, motionFile: string): string | null {
  const ofScan = tables(dirname(dirname(motionFile)), '_scans.tsv')
    .flatMap(readTsv)
    .find(({ filename }) => filename && motionFile.endsWith(filename))?.acq_time;
  const { sub, ses } = parseStem(motionFile.split(/[\\/]/).at(-1)!)!;
  const ofSession = () =>
    tables(join(folder, `sub-${sub}`), '_sessions.tsv')
      .flatMap(readTsv)
      .find(({ session_id }) => session_id === `ses-${ses}`)?.acq_time;
  return day(ofScan) ?? day(ofSession());
}

function day(instant: string | undefined): string | null {
  return instant !== undefined && INSTANT.test(instant) ? instant.slice(0, 10) : null;
}

function tables(folder: string, ending: string): string[] {
  if (!existsSync(folder)) return [];
  return readdirSync(folder)
    .filter((name) => name.endsWith(ending))
    .map((name) => join(folder, name));
}

/** Keeps sessions without a day apart: each of a participant gets a stand-in of its own, in the order of their names. */
export class SessionDays {
  private readonly seen = new Map<string, string[]>();

  /** @param ses label of the session; null where there is none */
  standIn(sub: string, ses: string | null): string {
    const sessions = this.seen.get(sub) ?? [];
    this.seen.set(sub, sessions);
    if (!sessions.includes(ses ?? '')) sessions.push(ses ?? '');
    return standInDate(sessions.indexOf(ses ?? ''));
  }
}

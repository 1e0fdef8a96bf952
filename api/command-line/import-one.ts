import { openAsBlob } from 'node:fs';
import { basename } from 'node:path';
import { type Fault, FaultError, fault } from '../../shared/fault.ts';
import type { Athlete, AthleteList } from '../../shared/schemas/athlete.ts';
import type { Import, ImportAccepted } from '../../shared/schemas/import.ts';
import type { Session, SessionList } from '../../shared/schemas/session.ts';
import type { ImportLine } from '../export/motion-bids/import-line.ts';
import type { ApiClient } from './api-client.ts';

export interface ImportEnd {
  line: ImportLine;
  repetition_ids: number[];
  /** The same files had been imported before. */
  known: boolean;
  fault: Fault | null;
}

/** Finds or makes athletes by name and their sessions by day; each is asked for once, however many imports want it. */
export class PlaceFinder {
  readonly #api: ApiClient;
  #athletes: Promise<Map<string, number>> | null = null;
  readonly #newAthletes = new Map<string, Promise<number>>();
  readonly #sessions = new Map<string, Promise<number>>();

  constructor(api: ApiClient) {
    this.#api = api;
  }

  async athleteId(name: string): Promise<number> {
    this.#athletes ??= this.#api
      .call<AthleteList>('GET', '/athletes')
      .then(({ items }) => new Map(items.map((athlete) => [athlete.name, athlete.athlete_id])));
    const known = (await this.#athletes).get(name);
    if (known !== undefined) return known;
    return remember(this.#newAthletes, name, async () => {
      return (await this.#api.call<Athlete>('POST', '/athletes', { name })).athlete_id;
    });
  }

  sessionId(athleteId: number, date: string): Promise<number> {
    return remember(this.#sessions, `${athleteId} ${date}`, async () => {
      const query = new URLSearchParams({ athlete_id: String(athleteId), from: date, to: date });
      const { items } = await this.#api.call<SessionList>('GET', `/sessions?${query}`);
      if (items.length > 0) return items[0].session_id;
      const made = await this.#api.call<Session>('POST', '/sessions', { session_date: date, athlete_id: athleteId });
      return made.session_id;
    });
  }
}

/** Sends one import and waits for its end. What goes wrong comes back as a fault, so that the others go on. */
export async function importOne(api: ApiClient, places: PlaceFinder, line: ImportLine): Promise<ImportEnd> {
  try {
    const athleteId = await places.athleteId(line.athlete);
    const sessionId = await places.sessionId(athleteId, line.date);
    const form = new FormData();
    form.set('athlete_id', String(athleteId));
    form.set('session_id', String(sessionId));
    for (const [name, value] of Object.entries(line.form)) if (value !== undefined) form.set(name, value);
    for (const [side, path] of Object.entries(line.files)) {
      if (path !== undefined) form.set(side, await openFile(path), basename(path));
    }
    const { import_id } = await api.call<ImportAccepted>('POST', '/imports', form);
    const end = await waitForEnd(api, import_id);
    return { line, repetition_ids: end.repetition_ids, known: end.duplicate_of !== null, fault: end.fault };
  } catch (error) {
    if (!(error instanceof FaultError)) throw error;
    return { line, repetition_ids: [], known: false, fault: error.toFault() };
  }
}

async function openFile(path: string): Promise<Blob> {
  try {
    return await openAsBlob(path);
  } catch {
    throw new FaultError(fault('FILE_NOT_FOUND.of_import', { file: path }, { file: path }));
  }
}

/** The event stream ends with the import. */
async function waitForEnd(api: ApiClient, importId: number): Promise<Import> {
  const events = await fetch(`${api.address}/api/imports/${importId}/events`);
  await events.text();
  return api.call<Import>('GET', `/imports/${importId}`);
}

function remember(known: Map<string, Promise<number>>, key: string, make: () => Promise<number>): Promise<number> {
  const present = known.get(key);
  if (present) return present;
  const made = make();
  known.set(key, made);
  return made;
}

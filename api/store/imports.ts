import { type Fault, FaultError, fault } from '../../shared/fault.ts';
import type { Import, ImportFields } from '../../shared/schemas/import.ts';
import type { Layout } from '../../shared/schemas/layout.ts';
import { freshId } from './fresh-id.ts';
import type { SetAside } from './set-aside.ts';
import { notFound } from './not-found.ts';
import type { StoredRawFile } from './raw-files.ts';
import { nowUtc, type Store } from './store.ts';

export interface ImportFile extends Pick<StoredRawFile, 'raw_file_id'> {
  /** 'left', 'right', or 'unknown' where the file says itself. */
  side: string;
  file_name: string;
}

export function createImport(store: Store, fields: ImportFields, files: ImportFile[]): number {
  return store.transaction(() => {
    const { id } = store.run(
      store.query.insertInto('imports').values({
        import_id: freshId(store, 'imports'),
        state: 'queued',
        step: 'waiting',
        athlete_id: fields.athlete_id,
        session_id: fields.session_id,
        fields: JSON.stringify(fields),
        created_utc: nowUtc(),
      }),
    );
    for (const { side, raw_file_id, file_name } of files) {
      store.run(store.query.insertInto('import_files').values({ import_id: id, side, raw_file_id, file_name }));
    }
    return id;
  });
}

/** @throws FaultError IMPORT_NOT_FOUND */
export function getImport(store: Store, importId: number): Import {
  const row = store.first(importRows(store).where('import_id', '=', importId));
  if (!row) throw notFound('import', importId);
  return toImport(store, row);
}

/** Imports, newest first. */
export function listImports(store: Store, filter: { state?: string; limit?: number } = {}): Import[] {
  let query = importRows(store)
    .orderBy('import_id', 'desc')
    .limit(filter.limit ?? 200);
  if (filter.state !== undefined) query = query.where('state', '=', filter.state);
  return store.all(query).map((row) => toImport(store, row));
}

export function importFields(store: Store, importId: number): ImportFields {
  const row = store.first(store.query.selectFrom('imports').select('fields').where('import_id', '=', importId));
  if (!row) throw notFound('import', importId);
  return JSON.parse(row.fields) as ImportFields;
}

export function setImportFields(store: Store, importId: number, fields: ImportFields): void {
  store.run(
    store.query
      .updateTable('imports')
      .set({ fields: JSON.stringify(fields), athlete_id: fields.athlete_id, session_id: fields.session_id })
      .where('import_id', '=', importId),
  );
}

/** Files of an import, left before right. */
export function listImportFiles(store: Store, importId: number) {
  return store.all(
    store.query
      .selectFrom('import_files')
      .innerJoin('raw_files', 'raw_files.raw_file_id', 'import_files.raw_file_id')
      .select(['side', 'import_files.raw_file_id', 'import_files.file_name', 'bytes', 'raw_sha256'])
      .where('import_id', '=', importId)
      .orderBy('side'),
  );
}

/** What is noted of an import; what is left out stays. */
export interface ImportMark {
  state?: Import['state'];
  step?: string;
  progress?: number;
  fault?: Fault | null;
  faults?: Fault[];
  rejected?: SetAside;
  duplicate_of?: number;
  tries?: number;
}

/** Notes where an import stands. Ended states get their time. */
export function markImport(store: Store, importId: number, mark: ImportMark): void {
  const { fault, faults, rejected, ...plain } = mark;
  const ended = mark.state === 'done' || mark.state === 'failed' || mark.state === 'cancelled';
  store.run(
    store.query
      .updateTable('imports')
      .set({
        ...plain,
        ...(fault === undefined ? {} : { fault: fault === null ? null : JSON.stringify(fault) }),
        ...(faults === undefined ? {} : { faults: JSON.stringify(faults) }),
        ...(rejected === undefined
          ? {}
          : { rejected_count: rejected.count, rejected_rows: JSON.stringify(rejected.rows) }),
        ...(mark.state === undefined ? {} : { finished_utc: ended ? nowUtc() : null }),
      })
      .where('import_id', '=', importId),
  );
}

/** How often the work on an import was begun without coming to an end. */
export function triesOf(store: Store, importId: number): number {
  const row = store.first(store.query.selectFrom('imports').select('tries').where('import_id', '=', importId));
  return row?.tries ?? 0;
}

/** The layout an import's first recording was read with. @throws FaultError LAYOUT_NOT_FOUND */
export function layoutOfImport(store: Store, importId: number): Layout {
  getImport(store, importId);
  const row = store.first(
    store.query.selectFrom('recordings').select('layout').where('import_id', '=', importId).orderBy('recording_id'),
  );
  const layout = JSON.parse(row?.layout ?? 'null') as Layout | null;
  if (layout) return layout;
  throw new FaultError(fault('LAYOUT_NOT_FOUND.of_import', { import_id: importId }, { import_id: importId }));
}

/** Rows of an import's files that were set aside. */
export function rejectedRows(store: Store, importId: number): SetAside['rows'] {
  const row = store.first(store.query.selectFrom('imports').select('rejected_rows').where('import_id', '=', importId));
  if (!row) throw notFound('import', importId);
  return JSON.parse(row.rejected_rows);
}

/** Repetitions (not deleted) that rest on an import's recordings, in running order. */
export function repetitionIdsOfImport(store: Store, importId: number): number[] {
  return store
    .all(
      store.query
        .selectFrom('recordings')
        .innerJoin('repetition_recordings', 'repetition_recordings.recording_id', 'recordings.recording_id')
        .innerJoin('repetitions', 'repetitions.repetition_id', 'repetition_recordings.repetition_id')
        .select('repetitions.repetition_id')
        .distinct()
        .where('recordings.import_id', '=', importId)
        .where('repetitions.deleted_utc', 'is', null)
        .orderBy('repetitions.number_in_recording'),
    )
    .map((row) => row.repetition_id);
}

function importRows(store: Store) {
  return store.query
    .selectFrom('imports')
    .select([
      'import_id',
      'state',
      'step',
      'progress',
      'athlete_id',
      'session_id',
      'duplicate_of',
      'fault',
      'faults',
      'rejected_count',
      'created_utc',
      'finished_utc',
    ]);
}

type ImportRow = NonNullable<Awaited<ReturnType<ReturnType<typeof importRows>['executeTakeFirst']>>>;

function toImport(store: Store, row: ImportRow): Import {
  return {
    ...row,
    state: row.state as Import['state'],
    fault: row.fault === null ? null : JSON.parse(row.fault),
    faults: JSON.parse(row.faults),
    files: listImportFiles(store, row.import_id).map(({ side, file_name, bytes, raw_sha256 }) => ({
      side,
      file_name,
      bytes,
      raw_sha256: raw_sha256 ?? '',
    })),
    repetition_ids: repetitionIdsOfImport(store, row.duplicate_of ?? row.import_id),
  };
}

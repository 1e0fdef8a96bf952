import type { ImportFields } from '../../shared/schemas/import.ts';
import { importFields, listImportFiles, repetitionIdsOfImport } from './imports.ts';
import type { Store } from './store.ts';

/**
 * Another finished import of the same bytes, side for side, for the same athlete and mounting, whose repetitions still stand.
 * The same file for another athlete is not a duplicate: it may have been given to the wrong one at first.
 */
export function findDuplicateImport(store: Store, importId: number): number | null {
  const own = importFields(store, importId);
  const key = filesKey(store, importId);
  const candidates = store.all(
    store.query
      .selectFrom('imports')
      .select(['import_id', 'fields'])
      .where('import_id', '!=', importId)
      .where('state', '=', 'done')
      .where('duplicate_of', 'is', null)
      .where('athlete_id', '=', own.athlete_id)
      .where('import_id', 'in', (files) =>
        files
          .selectFrom('import_files as earlier')
          .innerJoin('import_files as mine', 'mine.raw_file_id', 'earlier.raw_file_id')
          .select('earlier.import_id')
          .where('mine.import_id', '=', importId),
      ),
  );
  const same = candidates.find(
    ({ import_id, fields }) =>
      filesKey(store, import_id) === key &&
      (JSON.parse(fields) as ImportFields).mounting === own.mounting &&
      repetitionIdsOfImport(store, import_id).length > 0,
  );
  return same?.import_id ?? null;
}

function filesKey(store: Store, importId: number): string {
  return listImportFiles(store, importId)
    .map((file) => `${file.side}:${file.raw_file_id}`)
    .join(' ');
}

import type { Exchange } from './exchange.ts';

/** Rows of the club's tables in the archive by the names of their columns. */
export type ArchivedRow = Record<string, unknown>;

/** Rows of a table of the archive by their identifiers. @param order SQL behind the condition */
export async function archivedRows(
  x: Exchange,
  table: string,
  column: string,
  ids: string[],
  order = '',
): Promise<ArchivedRow[]> {
  if (ids.length === 0) return [];
  const type = column === 'raw_sha256' ? 'text' : 'uuid';
  const { rows } = await x.client.query<ArchivedRow>(
    `SELECT * FROM archive.${table} WHERE club_id = $1 AND ${column} = ANY($2::${type}[]) ${order}`,
    [x.club_id, ids],
  );
  return rows;
}

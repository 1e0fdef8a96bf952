import { CONTACT_QUANTITIES } from '../../../shared/fields.ts';
import { ADULT_FROM } from '../../../shared/dates.ts';
import { FaultError, fault } from '../../../shared/fault.ts';
import { AGES } from '../../export/privacy/bands.ts';
import { FEWEST_PEOPLE, type NormBand } from '../../../shared/schemas/coach/norms.ts';
import type { Duck } from './duckdb.ts';

const EFFORTS = [0, 70, 80, 90, 95];

/** Puts the files of `writeArchiveParquet` before an engine, as views `repetitions` and `contacts`. @throws FaultError FILE_NOT_FOUND */
export async function openArchiveFiles(duck: Duck, folder: string): Promise<void> {
  for (const table of ['repetitions', 'contacts']) {
    const files = `${folder.replaceAll("'", "''")}/${table}/*/*/part.parquet`;
    try {
      await duck.rows(
        `CREATE VIEW ${table} AS SELECT * FROM read_parquet('${files}', hive_partitioning = true, union_by_name = true)`,
      );
    } catch {
      throw new FaultError(fault('FILE_NOT_FOUND.archive_files', { folder }, { file: folder }));
    }
  }
}

/**
 * Norms of a quantity of a contact by sex, age, effort and speed, over every club; each person's contacts are averaged first, so that who
 * runs most does not count most. Of ages the archive knows the year of birth alone, so whoever may be a minor or of age is in no cell.
 * @throws FaultError QUANTITY_UNKNOWN
 */
export async function normsOf(duck: Duck, quantity: string): Promise<NormBand[]> {
  if (!(CONTACT_QUANTITIES as readonly string[]).includes(quantity))
    throw new FaultError(fault('QUANTITY_UNKNOWN', { quantity }, { quantity }));
  const rows = await duck.rows(
    `WITH runs AS (
       SELECT club, repetition_uuid, athlete, sex, ${bandStart('age_years', ageEdges())} AS age_from,
              ${bandStart('effort_percent', EFFORTS)} AS effort_from
       FROM repetitions WHERE sex IS NOT NULL AND age_years IS NOT NULL AND effort_percent IS NOT NULL
         AND age_years <> ${ADULT_FROM - 1}
     ), people AS (
       SELECT sex, age_from, effort_from, floor(c.speed_mps) AS speed_from, r.club, r.athlete,
              avg(c.${quantity}) AS own_mean, count(*) AS n
       FROM contacts c JOIN runs r ON r.club = c.club AND r.repetition_uuid = c.repetition_uuid
       WHERE c.${quantity} IS NOT NULL AND c.speed_mps IS NOT NULL
       GROUP BY ALL
     )
     SELECT sex, age_from, effort_from, speed_from, count(*)::INTEGER AS people, sum(n)::DOUBLE AS contacts, avg(own_mean) AS mean,
            stddev_samp(own_mean) AS sd, quantile_cont(own_mean, 0.05) AS p05, quantile_cont(own_mean, 0.5) AS p50,
            quantile_cont(own_mean, 0.95) AS p95
     FROM people GROUP BY sex, age_from, effort_from, speed_from HAVING count(*) >= ${FEWEST_PEOPLE}
     ORDER BY sex, age_from, effort_from, speed_from`,
  );
  return rows.map((row) => ({
    sex: row.sex as string,
    age_from: Number(row.age_from),
    age_to: nextEdge(Number(row.age_from), ageEdges()),
    effort_from: Number(row.effort_from),
    effort_to: nextEdge(Number(row.effort_from), EFFORTS),
    speed_from_mps: Number(row.speed_from),
    people: Number(row.people),
    contacts: Number(row.contacts),
    mean: Number(row.mean),
    sd: Number(row.sd),
    p05: Number(row.p05),
    p50: Number(row.p50),
    p95: Number(row.p95),
  }));
}

/** What an archive's files hold: clubs, people, repetitions and contacts by year. */
export function countsOf(duck: Duck): Promise<Record<string, unknown>[]> {
  return duck.rows(
    `SELECT r.year, count(DISTINCT r.club)::INTEGER AS clubs, count(DISTINCT r.club || r.athlete)::INTEGER AS people,
            count(*)::INTEGER AS repetitions, sum(contacts)::DOUBLE AS contacts
     FROM repetitions r GROUP BY r.year ORDER BY r.year`,
  );
}

/** Ages at which a band begins; one of them is where adults begin. */
function ageEdges(): number[] {
  return [...new Set([0, ...AGES, ADULT_FROM])].sort((a, b) => a - b);
}

function bandStart(column: string, edges: number[]): string {
  const cases = [...edges].reverse().map((edge) => `WHEN ${column} >= ${edge} THEN ${edge}`);
  return `CASE ${cases.join(' ')} END`;
}

function nextEdge(from: number, edges: number[]): number | null {
  return edges.find((edge) => edge > from) ?? null;
}

import { ageAt } from '../../../shared/dates.ts';
import { CONTACT_QUANTITIES } from '../../../shared/fields.ts';
import { FaultError, fault } from '../../../shared/fault.ts';
import type { BesideOthers, NormBand } from '../../../shared/schemas/coach/norms.ts';
import type { Store } from '../../store/store.ts';
import type { NormsDocument } from './norms-document.ts';

interface Body {
  name: string;
  sex: string | null;
  birth_date: string | null;
}

/**
 * An athlete's own normal beside that of others of the same sex and age, at the same speed and effort: bands of people, never people.
 * A minor is only ever beside minors, since a band begins where adults begin (`ageEdges` of api/archive/research/norms.ts).
 * @param today day on which the athlete's age counts
 * @throws FaultError NORMS_NOT_FOUND where sex or age are not known
 */
export function besideOthers(store: Store, norms: NormsDocument, athlete_id: number, today: string): BesideOthers[] {
  const body = store.prepare('SELECT name, sex, birth_date FROM athletes WHERE athlete_id = ?').get(athlete_id) as Body;
  if (body.sex === null || body.birth_date === null)
    throw new FaultError(fault('NORMS_NOT_FOUND.unknown', { name: body.name }, { athlete_id }));
  const age = ageAt(body.birth_date, today);
  // A document from elsewhere names columns only as far as this version knows them.
  const known = norms.quantities.filter(({ quantity }) => (CONTACT_QUANTITIES as readonly string[]).includes(quantity));
  return known.flatMap(({ quantity, cells }) =>
    cells
      .filter((cell) => cell.sex === body.sex && age >= cell.age_from && (cell.age_to === null || age < cell.age_to))
      .flatMap((cell) => ownOf(store, athlete_id, quantity, cell)),
  );
}

function ownOf(store: Store, athlete_id: number, quantity: string, cell: NormBand): BesideOthers[] {
  const { n, mean, square } = store
    .prepare(
      `SELECT count(*) AS n, avg(c.${quantity}) AS mean, avg(c.${quantity} * c.${quantity}) AS square
       FROM repetitions r JOIN sessions s USING (session_id) JOIN contacts c ON c.analysis_id = r.analysis_id
       WHERE r.athlete_id = @athlete_id AND r.deleted_utc IS NULL AND s.deleted_utc IS NULL AND c.${quantity} IS NOT NULL
         AND c.speed_mps >= @speed AND c.speed_mps < @speed + 1
         AND r.effort_percent >= @from AND (@to IS NULL OR r.effort_percent < @to)`,
    )
    .get({ athlete_id, speed: cell.speed_from_mps, from: cell.effort_from, to: cell.effort_to }) as {
    n: number;
    mean: number | null;
    square: number | null;
  };
  if (n === 0) return [];
  const own_sd = n > 1 ? Math.sqrt(Math.max(0, (square! - mean! ** 2) * (n / (n - 1)))) : null;
  return [{ quantity, band: cell, own_mean: mean!, own_sd, own_contacts: n }];
}

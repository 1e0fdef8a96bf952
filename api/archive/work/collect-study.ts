import { METHOD } from '../../../dsp/analyse.ts';
import type { AgreementStudy } from '../../../shared/schemas/agreement.ts';
import { agreementStudy, type StudyCase } from '../../agreement/study.ts';
import type { ArchiveClient } from '../connect.ts';
import type { AgreementPart, GivenReference, WantedAgreement } from './do-agreement.ts';

/** Puts together an agreement study of what its workers have done until now; athletes by pseudonym and club. */
export async function collectStudy(client: ArchiveClient, run_id: string): Promise<AgreementStudy> {
  const { rows: runs } = await client.query<{ wanted: WantedAgreement }>(
    'SELECT wanted FROM archive.runs WHERE run_id = $1',
    [run_id],
  );
  const { rows } = await client.query<{ athlete: string; given: GivenReference; outcome: AgreementPart }>(
    `SELECT coalesce(p.pseudonym, p.person_id::text) || ', ' || c.name AS athlete, i.given, i.outcome
       FROM archive.run_items i JOIN archive.repetitions r USING (club_id, repetition_id)
         JOIN archive.people p ON p.club_id = r.club_id AND p.person_id = r.person_id JOIN archive.clubs c ON c.club_id = i.club_id
       WHERE i.run_id = $1 AND i.state = 'done' ORDER BY i.club_id, i.repetition_id`,
    [run_id],
  );
  const cases = rows.map(
    ({ athlete, given, outcome }): StudyCase => ({ recording: given.recording, athlete, ...outcome }),
  );
  return agreementStudy(cases, runs[0].wanted.reference_clock, METHOD);
}

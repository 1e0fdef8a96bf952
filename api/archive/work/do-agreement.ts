import { findClockOffset } from '../../agreement/match-contacts.ts';
import { readReference, type ReferenceContact } from '../../agreement/read-reference.ts';
import type { Contact } from '../../../shared/analysis.ts';
import { FaultError } from '../../../shared/fault.ts';
import type { AgreementStudy } from '../../../shared/schemas/agreement.ts';
import { analyseArchived } from './analyse-archived.ts';
import { type DoJob, nothingToStore } from './job.ts';

/** What an agreement study wants of every repetition, and what each is given. */
export interface WantedAgreement {
  reference_clock: AgreementStudy['reference_clock'];
}
export interface GivenReference {
  recording: string;
  /** File of the reference, as it was called. */
  file: string;
  reference_csv: string;
}

/** What a repetition brings to the study. */
export interface AgreementPart {
  contacts: Contact[];
  reference: ReferenceContact[];
}

/** Analyses one repetition anew from its samples and holds it against its reference; nothing of the repetition changes. */
export const compareArchived: DoJob = async (client, item, run) => {
  const { found, ...outcome } = await analyseArchived(client, item, run);
  if (found === null) return { ...outcome, store: nothingToStore };
  const { recording, file, reference_csv } = item.given as unknown as GivenReference;
  try {
    const reference = readReference(reference_csv, file);
    const { contacts } = found.repetition;
    // What cannot be put together is told of this repetition, not of the whole study.
    if ((run.wanted as unknown as WantedAgreement).reference_clock === 'unrelated')
      findClockOffset(contacts, reference, recording);
    const part: AgreementPart = { contacts, reference };
    return { ...outcome, store: async () => ({ outcome: part }) };
  } catch (error) {
    if (error instanceof FaultError) return { ...outcome, fault: error.toFault(), store: nothingToStore };
    throw error;
  }
};

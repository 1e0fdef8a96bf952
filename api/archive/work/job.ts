import type { RunKind } from '../../../shared/schemas/archive.ts';
import type { Fault } from '../../../shared/fault.ts';
import { DEFAULT_SETTINGS } from '../../../dsp/settings/settings.ts';
import { mergeSettings } from '../../measuring/read-settings.ts';
import type { ArchiveClient } from '../connect.ts';
import type { ArchiveJob } from '../queue.ts';

/** What was asked for, as every job of a run needs it. */
export interface Run {
  kind: RunKind;
  /** What differs from the default settings; null: nothing. */
  settings: unknown;
  wanted: Record<string, unknown>;
}

/** What a job is given beside its run. */
export interface JobItem extends ArchiveJob {
  people: string[] | null;
  given: Record<string, unknown> | null;
}

/** What a stored job leaves with its item. */
export interface Stored {
  /** A result of the repetition that was stored beside the others; null where another worker was first. */
  analysis_id?: string | null;
  outcome?: unknown;
}

/** What became of a job: why there is nothing to store, or how it is stored. */
export interface JobOutcome {
  fault: Fault | null;
  read_s: number;
  analysed_s: number;
  read_bytes: number;
  /** To be called in the transaction that ends the job; only where there is no fault. */
  store: (client: ArchiveClient) => Promise<Stored>;
}

/** Does one job; nothing is stored yet. */
export type DoJob = (client: ArchiveClient, item: JobItem, run: Run) => Promise<JobOutcome>;

/** Settings of a run in full. @throws FaultError SETTINGS_UNREADABLE */
export function settingsOf({ settings }: Pick<Run, 'settings'>) {
  return settings === null ? DEFAULT_SETTINGS : mergeSettings(settings, 'settings');
}

export const nothingToStore = async (): Promise<Stored> => ({});

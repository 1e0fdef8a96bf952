import type { ArchiveOverview } from '../../../shared/schemas/archive.ts';
import type { ArchiveClient } from '../connect.ts';
import { overviewOf } from './overview.ts';
import { withArchive } from '../with-archive.ts';

/** Counting reads through the whole archive: not more often than this, however many pages are open. */
const COUNT_EVERY_MS = 60_000;

/**
 * What pages ask of an archive. Each request has a connection of its own: nothing is left hanging when the database or the network went
 * away in between, and the next request finds it again.
 */
export class ArchiveDesk {
  readonly #address: string;
  #counted: { at_ms: number; overview: Promise<ArchiveOverview> } | null = null;

  /** @param address of the archive, as a keeper */
  constructor(address: string) {
    this.#address = address;
  }

  /** @throws FaultError ARCHIVE_UNREACHABLE, ARCHIVE_REFUSED and whatever `work` throws */
  ask<Result>(work: (client: ArchiveClient) => Promise<Result>): Promise<Result> {
    return withArchive(this.#address, work);
  }

  /** Counts of everything, at most a minute old; several who ask at once wait for one count. */
  overview(): Promise<ArchiveOverview> {
    const now = Date.now();
    if (this.#counted === null || now - this.#counted.at_ms > COUNT_EVERY_MS) {
      const overview = this.ask(overviewOf);
      this.#counted = { at_ms: now, overview };
      // What failed is asked again, not kept.
      overview.catch(() => {
        this.#counted = null;
      });
    }
    return this.#counted.overview;
  }
}

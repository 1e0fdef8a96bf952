import { errorNotice } from '../../error-words.ts';
import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { shippedDescriptions } from '../../../ingest/ble/descriptions/index.ts';
import { descriptionWarnings } from '../../../ingest/ble/description/description-warnings.ts';
import { readStreamDescription } from '../../../ingest/ble/description/read-stream-description.ts';
import { FaultError, fault } from '../../../shared/fault.ts';
import { type Notice, notice } from '../../../shared/notice.ts';
import type { StreamDescription } from '../../../shared/schemas/stream-description.ts';

/** What a description will cost, said when it is loaded: a counter that begins again sooner than a link may stall, for one. */
export function warningsOf(description: StreamDescription): Notice[] {
  return descriptionWarnings(description).map(({ field, words }) =>
    notice('description_warning', { description_id: description.id, field, words }),
  );
}

/** The shipped stream descriptions and those a user has added, which are kept as files in one folder. */
export class StreamDescriptions {
  private readonly folder: string;
  private readonly by_id = new Map<string, StreamDescription>();
  /** Why files in the folder could not be loaded, and what those that were will cost. */
  readonly problems: Notice[] = [];

  /** @param read_only true: nothing is made; a folder that is not there is one without descriptions */
  constructor(folder: string, read_only = false) {
    this.folder = folder;
    if (!read_only) mkdirSync(folder, { recursive: true });
    for (const description of shippedDescriptions()) this.by_id.set(description.id, description);
    for (const name of (existsSync(folder) ? readdirSync(folder) : []).filter((entry) => entry.endsWith('.json'))) {
      try {
        const description = readStreamDescription(name, readFileSync(join(folder, name), 'utf8'));
        this.by_id.set(description.id, description);
        this.problems.push(...warningsOf(description));
      } catch (error) {
        this.problems.push(errorNotice(error));
      }
    }
  }

  all(): StreamDescription[] {
    return [...this.by_id.values()];
  }

  /** @throws FaultError STREAM_DESCRIPTION_INVALID when there is none with this identifier */
  get(id: string): StreamDescription {
    const description = this.by_id.get(id);
    if (description !== undefined) return description;
    throw new FaultError(
      fault('STREAM_DESCRIPTION_INVALID.unknown', { id, known: [...this.by_id.keys()] }, { description_id: id }),
    );
  }

  /** Checks a description, keeps it, and uses it from now on. @throws FaultError STREAM_DESCRIPTION_INVALID */
  add(text: string): StreamDescription {
    const description = readStreamDescription('given', text);
    const file = join(this.folder, `${description.id}.json`);
    writeFileSync(`${file}.new`, `${JSON.stringify(description, null, 2)}\n`);
    renameSync(`${file}.new`, file);
    this.by_id.set(description.id, description);
    return description;
  }

  /** Removes one that was added. @throws FaultError STREAM_DESCRIPTION_INVALID for a shipped or an unknown one */
  remove(id: string): void {
    const shipped = shippedDescriptions().find((description) => description.id === id);
    const file = join(this.folder, `${this.get(id).id}.json`);
    if (!existsSync(file)) {
      throw new FaultError(fault('STREAM_DESCRIPTION_INVALID.shipped', { id }, { description_id: id }));
    }
    rmSync(file);
    if (shipped === undefined) this.by_id.delete(id);
    else this.by_id.set(id, shipped);
  }

  /** Identifiers of those that a user has added. */
  added(): string[] {
    return [...this.by_id.keys()].filter((id) => existsSync(join(this.folder, `${id}.json`)));
  }

  /** Those whose service or name fits a sensor that is heard, the likeliest first: by both, by its service, by its name. */
  fitting(name: string, service_uuids: string[]): StreamDescription[] {
    const worth = (one: StreamDescription) =>
      (service_uuids.includes(one.service_uuid) ? 2 : 0) + (name.startsWith(one.advertised_name_prefix) ? 1 : 0);
    return this.all()
      .filter((one) => worth(one) > 0)
      .sort((a, b) => worth(b) - worth(a));
  }
}

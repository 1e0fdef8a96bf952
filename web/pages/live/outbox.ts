import { type Fault, FaultError } from '../../../shared/fault.ts';

const SEND_MS = 150;
const MOST_BYTES = 256 * 1024;
/** While nothing is recorded, what is older than this is let go, milliseconds. */
const UNWANTED_MS = 2000;

interface Waiting {
  bytes: Uint8Array;
  at_ms: number;
}

export interface OutboxParts {
  sensor_id: string;
  /** A word of this visit to the page, whose clock the arrival times are on. */
  page: string;
  /** False while no capture runs: then nothing needs to be kept. */
  wanted: () => boolean;
  /** The server knows the sensor no more (it was started again): announce it anew. */
  announce: () => Promise<unknown>;
}

/**
 * Sends one sensor's records to the server, in order, each batch until it is taken: a broken network or a restarted server
 * costs nothing as long as the page stays open.
 */
export class Outbox {
  private readonly parts: OutboxParts;
  private queue: Waiting[] = [];
  private batch = 0;
  private sending: Waiting[] | null = null;
  private busy = false;
  private readonly timer: ReturnType<typeof setInterval>;
  /** Empty while all is well. */
  problem = '';

  constructor(parts: OutboxParts) {
    this.parts = parts;
    this.timer = setInterval(() => void this.send(), SEND_MS);
  }

  add(bytes: Uint8Array): void {
    this.queue.push({ bytes, at_ms: performance.now() });
  }

  get waiting(): number {
    return this.queue.length + (this.sending?.length ?? 0);
  }

  /** Lets go what waits and is not being sent. */
  clear(): void {
    this.queue = [];
  }

  close(): void {
    clearInterval(this.timer);
  }

  private async send(): Promise<void> {
    if (this.busy) return;
    if (!this.parts.wanted()) this.letGo();
    this.sending ??= this.queue.length > 0 ? this.queue.splice(0, this.batchLength()) : null;
    if (this.sending === null) return;
    this.busy = true;
    try {
      const next = await this.post(this.sending);
      if (next === this.batch + 1) {
        this.batch = next;
        this.sending = null;
      } else if (next !== this.batch) this.batch = next;
      this.problem = '';
    } catch (error) {
      this.problem = error instanceof Error ? error.message : String(error);
      if (error instanceof FaultError && error.code === 'SENSOR_UNREACHABLE') {
        await this.parts.announce().catch(() => {});
        this.batch = 0;
      }
    } finally {
      this.busy = false;
    }
  }

  private async post(records: Waiting[]): Promise<number> {
    const body = new Uint8Array(records.reduce((sum, record) => sum + record.bytes.length, 0));
    let at = 0;
    for (const { bytes } of records) {
      body.set(bytes, at);
      at += bytes.length;
    }
    const { sensor_id, page } = this.parts;
    const sent_s = performance.now() / 1000;
    const query = new URLSearchParams({ page, batch: String(this.batch), sent_s: String(sent_s) });
    const answer = await fetch(`/api/capture/browser/${encodeURIComponent(sensor_id)}/packets?${query}`, {
      method: 'POST',
      headers: { 'content-type': 'application/octet-stream' },
      body,
    });
    const value = (await answer.json()) as { next_batch: number } | Fault;
    if ('next_batch' in value) return value.next_batch;
    throw new FaultError(value);
  }

  /** Records of one batch: after an outage there is more than one request may carry. */
  private batchLength(): number {
    let bytes = 0;
    const end = this.queue.findIndex((record) => {
      bytes += record.bytes.length;
      return bytes > MOST_BYTES;
    });
    return end < 0 ? this.queue.length : Math.max(1, end);
  }

  private letGo(): void {
    const oldest = performance.now() - UNWANTED_MS;
    this.queue = this.queue.filter((record) => record.at_ms > oldest);
    if (this.sending?.every((record) => record.at_ms <= oldest)) this.sending = null;
  }
}

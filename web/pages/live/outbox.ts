import { type Fault, FaultError } from '../../../shared/fault.ts';

const SEND_MS = 150;
const MOST_BYTES = 256 * 1024;
/** While nothing is recorded, what is older than this is let go, milliseconds. */
const UNWANTED_MS = 2000;

/** Browsers let requests that outlive their page carry 64 KiB together (Fetch standard); several sensors share them. */
const LEAVING_BYTES = 15_000;
/** A page with nothing to send says so often that it is still there: a sensor's silence is then not taken for the page's. */
const STILL_HERE_MS = 2500;
const OCTETS = { 'content-type': 'application/octet-stream' };

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
  /** Number of the first record of what is being sent. */
  private first = 0;
  private sending: Waiting[] | null = null;
  private busy = false;
  private asked_ms = performance.now();
  private readonly leaving = () => this.leave();
  private readonly timer: ReturnType<typeof setInterval>;
  /** Empty while all is well. */
  problem = '';

  constructor(parts: OutboxParts) {
    this.parts = parts;
    this.timer = setInterval(() => void this.send(), SEND_MS);
    addEventListener('pagehide', this.leaving);
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
    removeEventListener('pagehide', this.leaving);
  }

  private async send(): Promise<void> {
    if (this.busy) return;
    if (!this.parts.wanted()) this.letGo();
    this.sending ??= this.queue.length > 0 ? this.queue.splice(0, this.batchLength()) : null;
    if (this.sending === null && performance.now() - this.asked_ms < STILL_HERE_MS) return;
    this.busy = true;
    this.asked_ms = performance.now();
    try {
      const next = await this.post(this.sending ?? []);
      // A server that was started again counts anew: what it has not taken goes out under its numbers.
      const taken = Math.max(0, next - this.first);
      this.first = next;
      this.sending = this.sending !== null && taken < this.sending.length ? this.sending.slice(taken) : null;
      this.problem = '';
    } catch (error) {
      this.problem = error instanceof Error ? error.message : String(error);
      if (error instanceof FaultError && error.code === 'SENSOR_UNREACHABLE') {
        await this.parts.announce().catch(() => {});
        this.first = 0;
      }
    } finally {
      this.busy = false;
    }
  }

  /**
   * The page is being left or loaded anew: what waits goes out at once, as a request that outlives the page. What a request on the
   * way has already brought is known by its numbers and not taken twice.
   */
  leave(): void {
    const records = [...(this.sending ?? []), ...this.queue];
    if (records.length === 0 || !this.parts.wanted()) return;
    const { url, body } = this.request(withinKeepalive(records));
    void fetch(url, { method: 'POST', headers: OCTETS, body, keepalive: true }).catch(() => {});
  }

  private async post(records: Waiting[]): Promise<number> {
    const { url, body } = this.request(records);
    const answer = await fetch(url, { method: 'POST', headers: OCTETS, body });
    const value = (await answer.json()) as { next_record: number } | Fault;
    if ('next_record' in value) return value.next_record;
    throw new FaultError(value);
  }

  private request(records: Waiting[]) {
    const body = new Uint8Array(records.reduce((sum, record) => sum + record.bytes.length, 0));
    let at = 0;
    for (const { bytes } of records) {
      body.set(bytes, at);
      at += bytes.length;
    }
    const { sensor_id, page } = this.parts;
    const sent_s = performance.now() / 1000;
    const query = new URLSearchParams({ page, first: String(this.first), sent_s: String(sent_s) });
    return { url: `/api/capture/browser/${encodeURIComponent(sensor_id)}/packets?${query}`, body };
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

/** As many of the oldest as a request that outlives its page may carry. */
function withinKeepalive(records: Waiting[]): Waiting[] {
  let bytes = 0;
  return records.filter((record) => {
    bytes += record.bytes.length;
    return bytes <= LEAVING_BYTES;
  });
}

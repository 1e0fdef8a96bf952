import type {
  CaptureState,
  ContactsEvent,
  RepetitionEvent,
  SignalEvent,
  StoredEvent,
} from '../../shared/schemas/capture.ts';

type Seen =
  | { event: 'state'; value: CaptureState; at_ms: number }
  | { event: 'signal'; value: SignalEvent; at_ms: number }
  | { event: 'contacts'; value: ContactsEvent; at_ms: number }
  | { event: 'repetition'; value: RepetitionEvent; at_ms: number }
  | { event: 'stored'; value: StoredEvent; at_ms: number };

/** Follows the capture's server-sent events over HTTP, as the live page does. */
export class CaptureClient {
  readonly seen: Seen[] = [];
  private readonly address: string;
  private readonly abort = new AbortController();
  private readonly reading: Promise<void>;
  /** Those who look again at every event. */
  private readonly waiting = new Set<() => void>();

  constructor(address: string) {
    this.address = address;
    this.reading = this.read().catch(() => {});
  }

  get state(): CaptureState {
    return this.of('state').at(-1) as CaptureState;
  }

  of<Event extends Seen['event']>(event: Event): Extract<Seen, { event: Event }>['value'][] {
    return this.seen.filter((one) => one.event === event).map((one) => one.value) as never;
  }

  async send(method: string, path: string, body?: unknown): Promise<{ status: number; body: CaptureState }> {
    const answer = await fetch(`${this.address}/api/capture${path}`, {
      method,
      headers: body === undefined ? {} : { 'content-type': 'application/json' },
      body: body === undefined ? undefined : JSON.stringify(body),
    });
    return { status: answer.status, body: (await answer.json()) as CaptureState };
  }

  /** Waits for the event after which a condition holds. @throws after the limit, with the last state */
  async until(what: string, condition: () => boolean, limit_ms = 120_000): Promise<void> {
    const holds = () => this.seen.length > 0 && condition();
    if (holds()) return;
    await new Promise<void>((resolve, reject) => {
      const done = () => {
        clearTimeout(limit);
        this.waiting.delete(look);
      };
      const look = () => {
        if (!holds()) return;
        done();
        resolve();
      };
      const limit = setTimeout(() => {
        done();
        reject(new Error(`${what}: not within ${limit_ms} ms; ${JSON.stringify(this.state)}`));
      }, limit_ms);
      this.waiting.add(look);
    });
  }

  async close(): Promise<void> {
    this.abort.abort();
    await this.reading;
  }

  private async read(): Promise<void> {
    const answer = await fetch(`${this.address}/api/capture/events`, { signal: this.abort.signal });
    let text = '';
    const decoder = new TextDecoder();
    for await (const bytes of answer.body!) {
      text += decoder.decode(bytes, { stream: true });
      for (let end = text.indexOf('\n\n'); end >= 0; end = text.indexOf('\n\n')) {
        const [, event, data] = /^event: (\w+)\ndata: (.*)$/s.exec(text.slice(0, end)) ?? [];
        text = text.slice(end + 2);
        if (!event) continue;
        this.seen.push({ event, value: JSON.parse(data), at_ms: performance.now() } as Seen);
        for (const look of [...this.waiting]) look();
      }
    }
  }
}

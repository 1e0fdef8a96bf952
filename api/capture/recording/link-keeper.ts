import { errorNotice } from '../../error-words.ts';
import { hostTime } from '../../../ingest/ble/sources/host-clock.ts';
import type { SensorLink } from '../../../ingest/ble/sources/packet-source.ts';
import { type Notice, notice, SILENT } from '../../../shared/notice.ts';
import type { SensorState } from '../../../shared/schemas/capture.ts';

const SILENT_S = 2;
/** Silence after which the link is dropped and made anew. */
const GIVE_UP_S = 8;
const BACK_OFF_S = [0.3, 0.6, 1.2, 2.5, 5, 8];

export interface LinkParts {
  /** Makes a link. `lost` is called once when it breaks, which may be before it is there. */
  open(lost: (reason: Notice) => void): Promise<SensorLink>;
  /** A link is there. */
  linked(link: SensorLink): void;
  /** It broke, and is made again. */
  broke(reason: Notice): void;
  /** Links broke, and none since has brought a packet: told once, however many they were. */
  awayFrom(reason: Notice): void;
  /** The first packet after that, and for how long there was none. */
  backAfter(seconds: number): void;
}

class LinkBroke extends Error {
  readonly why: Notice;

  constructor(why: Notice) {
    super('the link broke while it was made');
    this.why = why;
  }
}

/** Keeps one sensor connected: a broken link is made again with growing pauses, for as long as it is asked to. */
export class LinkKeeper {
  state: SensorState = 'off';
  reconnects = 0;
  /** Why the link last broke, or the connection last failed. */
  reason: Notice = SILENT;
  last_packet_s: number | null = null;
  link: SensorLink | null = null;
  private readonly parts: LinkParts;
  private state_since_s = hostTime();
  private running = false;
  private linked_s = 0;
  /** Since when a lost link has not been followed by a packet; null while all is well. */
  private without_data_s: number | null = null;
  private wake: (() => void) | null = null;

  constructor(parts: LinkParts) {
    this.parts = parts;
  }

  /** Seconds in the present state. */
  forSeconds(now_s: number): number {
    return now_s - this.state_since_s;
  }

  start(): void {
    if (this.running) return;
    this.running = true;
    this.enter('connecting');
    void this.keepConnected();
  }

  async stop(): Promise<void> {
    this.running = false;
    this.wake?.();
    const { link } = this;
    this.link = null;
    await link?.close();
    this.enter('off');
  }

  /** What was played is through: no silence to warn of, nothing to connect to again. */
  ended(): void {
    this.link = null;
    this.enter('off');
  }

  packetCame(arrival_s: number): void {
    this.last_packet_s = arrival_s;
    if (this.without_data_s !== null) {
      this.parts.backAfter(arrival_s - this.without_data_s);
      this.without_data_s = null;
    }
    if (this.state === 'silent') this.enter('live');
  }

  /** Called a few times a second: notices silence, and gives up a link that brings nothing. */
  tend(now_s: number): void {
    const { link } = this;
    if (link === null) return;
    const silent_s = now_s - Math.max(this.last_packet_s ?? 0, this.linked_s);
    if (this.state === 'live' && silent_s > SILENT_S) this.enter('silent');
    if (silent_s <= GIVE_UP_S) return;
    this.lost(notice('no_data_for', { seconds: GIVE_UP_S }));
    void link.close();
  }

  private async keepConnected(): Promise<void> {
    let failures = 0;
    while (this.running) {
      try {
        await this.connect();
        const { linked_s } = this;
        await new Promise<void>((resolve) => {
          this.wake = resolve;
          // The link may have broken before anybody waited for it.
          if (this.link === null) resolve();
        });
        // A link without a packet is no better than none: the pauses go on growing.
        failures = (this.last_packet_s ?? 0) > linked_s ? 0 : failures + 1;
      } catch (error) {
        this.reason = error instanceof LinkBroke ? error.why : errorNotice(error);
        failures++;
      }
      if (!this.running) return;
      await this.pause(BACK_OFF_S[Math.min(failures, BACK_OFF_S.length - 1)]);
    }
  }

  private async connect(): Promise<void> {
    let broken: Notice | null = null;
    const link = await this.parts.open((reason) => {
      broken = reason;
      if (this.link !== null) this.lost(reason);
    });
    if (broken !== null) throw new LinkBroke(broken);
    if (!this.running) {
      await link.close();
      return;
    }
    this.link = link;
    this.linked_s = hostTime();
    this.parts.linked(link);
    this.enter('live');
  }

  private lost(reason: Notice): void {
    this.link = null;
    this.reason = reason;
    if (this.running) {
      this.reconnects++;
      this.parts.broke(reason);
      this.enter('lost');
      if (this.without_data_s === null) this.parts.awayFrom(reason);
      this.without_data_s ??= hostTime();
    }
    this.wake?.();
  }

  private enter(state: SensorState): void {
    if (state === this.state) return;
    this.state = state;
    this.state_since_s = hostTime();
  }

  private pause(seconds: number): Promise<void> {
    return new Promise((resolve) => {
      const timer = setTimeout(resolve, seconds * 1000);
      this.wake = () => {
        clearTimeout(timer);
        resolve();
      };
    });
  }
}

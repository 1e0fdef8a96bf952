import { FaultError, fault } from '../../../shared/fault.ts';
import type { LogHeader, PacketRecord } from '../../../shared/packet-record.ts';
import type { StreamDescription, StreamSettings } from '../../../shared/schemas/stream-description.ts';
import { hostTime } from './host-clock.ts';
import {
  type LinkHandlers,
  NO_INFORMATION,
  type PacketSource,
  type SensorFound,
  type SensorLink,
  type SourceState,
} from './packet-source.ts';

/** How often due packets are delivered, milliseconds. */
const TICK_MS = 10;

/** What is played of one sensor: a packet log, or what is made into packets while it is played. */
export interface PlayedLog {
  header: LogHeader;
  /** In the order they came. Gone through anew each time that it is asked for its first. */
  records: Iterable<PacketRecord>;
}

/**
 * Plays captured packet logs as if the sensors were here: each packet at the time it came, at true speed or faster.
 * Logs of one capture share the host's clock and stay in step. The play begins when the first sensor is opened;
 * `whenEnded` tells its end.
 */
export class ReplaySource implements PacketSource {
  readonly kind = 'replay';
  private readonly logs: Map<string, PlayedLog>;
  private readonly speed: number;
  private readonly first_arrival_s: number;
  private started_s: number | null = null;
  /** Of what is being played: its timer, and how what its records come from is closed. */
  private readonly playing = new Map<NodeJS.Timeout, () => void>();
  private ended = 0;
  private tellEnded: () => void = () => {};
  /** When every log has been played to its end. */
  readonly whenEnded = new Promise<void>((resolve) => {
    this.tellEnded = resolve;
  });

  /** @param speed 1 is true speed */
  constructor(logs: PlayedLog[], speed = 1) {
    this.logs = new Map(logs.map((log) => [log.header.sensor_id, log]));
    this.speed = speed;
    this.first_arrival_s = Math.min(...logs.map((log) => firstArrival(log)));
  }

  state(): SourceState {
    return { ready: true, problem: null };
  }

  /** Puts a host time on the logs' own clock; null before the play has begun. */
  logTime(host_s: number): number | null {
    return this.started_s === null ? null : this.first_arrival_s + host_s - this.started_s;
  }

  async startScan(found: (sensor: SensorFound) => void): Promise<void> {
    for (const { header } of this.logs.values()) {
      found({
        sensor_id: header.sensor_id,
        name: header.sensor_name,
        rssi_dbm: null,
        service_uuids: [header.description.service_uuid],
      });
    }
  }

  async stopScan(): Promise<void> {}

  async open(
    sensor_id: string,
    _description: StreamDescription,
    _settings: StreamSettings,
    handlers: LinkHandlers,
  ): Promise<SensorLink> {
    const log = this.logs.get(sensor_id);
    if (log === undefined) {
      throw new FaultError(
        fault('SENSOR_UNREACHABLE.not_played', { sensor_id, known: [...this.logs.keys()] }, { sensor_id }),
      );
    }
    this.started_s ??= hostTime();
    const due = packets(log);
    let next = due.next();
    const timer = setInterval(() => {
      const now_s = hostTime();
      const played_s = this.first_arrival_s + (now_s - this.started_s!) * this.speed;
      while (!next.done && next.value.arrival_s <= played_s) {
        // The packet's own moment, not the timer's: replay keeps the capture's arrivals, however fast it is played.
        const arrival_s = this.started_s! + next.value.arrival_s - this.first_arrival_s;
        const { bytes, source } = next.value;
        next = due.next();
        handlers.packet(bytes, arrival_s, source);
      }
      if (next.done) {
        this.end(timer);
        handlers.ended?.();
        if (++this.ended === this.logs.size) this.tellEnded();
      }
    }, TICK_MS);
    this.playing.set(timer, () => due.return());
    return {
      information: NO_INFORMATION,
      readBattery: async () => null,
      close: async () => this.end(timer),
    };
  }

  private end(timer: NodeJS.Timeout): void {
    clearInterval(timer);
    this.playing.get(timer)?.();
    this.playing.delete(timer);
  }

  async close(): Promise<void> {
    for (const timer of [...this.playing.keys()]) this.end(timer);
  }
}

function* packets(log: PlayedLog): Generator<Extract<PacketRecord, { kind: 'packet' }>, void> {
  for (const record of log.records) if (record.kind === 'packet') yield record;
}

function firstArrival(log: PlayedLog): number {
  // Left in this way, whatever the records come from is closed.
  for (const { arrival_s } of packets(log)) return arrival_s;
  return Number.POSITIVE_INFINITY;
}

import { type Notice, notice } from '../../../shared/notice.ts';
import { FaultError, fault } from '../../../shared/fault.ts';
import type { StreamDescription, StreamSettings } from '../../../shared/schemas/stream-description.ts';
import { hostTime } from './host-clock.ts';
import { decodeRecords } from '../../../shared/packet-record.ts';
import {
  type LinkHandlers,
  NO_INFORMATION,
  type PacketSource,
  type SensorFound,
  type SensorLink,
  type SourceState,
} from './packet-source.ts';

interface BrowserSensor {
  found: SensorFound;
  handlers: LinkHandlers | null;
  battery_percent: number | null;
  /** Next record expected from the browser; earlier ones have been taken. */
  next_record: number;
  heard_s: number;
}

/** A browser that sends nothing for so long has closed its page, seconds. */
const GONE_S = 10;
/** Sensors that browsers hold at once, and pages whose clocks are remembered. */
const MOST_SENSORS = 60;
const MOST_PAGES = 200;
/** No page keeps a record for longer before it is sent, nor has one that comes later than so, seconds. */
const KEPT_S = 24 * 3600;
const AHEAD_S = 10;
/** Words of a page about a lost link are kept up to so many characters. */
const MOST_WORDS = 200;

/**
 * Packets that a browser has received by Web Bluetooth and sends on as records. Their arrival times are on the browser's
 * clock; the least delay between sending and receiving puts them on the host's. Records are numbered: what is sent again, because an answer
 * was lost or the page is being left, is not taken twice.
 */
export class BrowserSource implements PacketSource {
  readonly kind = 'browser';
  private readonly sensors = new Map<string, BrowserSensor>();
  /** Host time minus browser time, per page. */
  private readonly offsets = new Map<string, number>();
  private readonly watch = setInterval(() => this.look(), 1000).unref();

  state(): SourceState {
    return { ready: true, problem: null };
  }

  has(sensor_id: string): boolean {
    return this.sensors.has(sensor_id);
  }

  /** A page announces a sensor that it holds. */
  announce(sensor: { sensor_id: string; name: string; service_uuid: string; battery_percent: number | null }): void {
    const { sensor_id, name, service_uuid, battery_percent } = sensor;
    if (!this.sensors.has(sensor_id) && this.sensors.size >= MOST_SENSORS) this.forgetGone();
    if (!this.sensors.has(sensor_id) && this.sensors.size >= MOST_SENSORS)
      throw new FaultError(fault('REQUEST_INVALID.too_many_sensors', { most: MOST_SENSORS }, { sensor_id }));
    this.sensors.get(sensor_id)?.handlers?.lost(notice('page_opened_anew'));
    this.sensors.set(sensor_id, {
      found: { sensor_id, name, rssi_dbm: null, service_uuids: [service_uuid] },
      handlers: null,
      battery_percent,
      next_record: 0,
      heard_s: hostTime(),
    });
  }

  /**
   * Takes a batch of records.
   * @param page any word that stays the same while the browser's clock runs
   * @param sent_s browser's clock when the batch was sent
   * @param first number of the batch's first record
   * @returns the number of the record expected next
   * @throws FaultError SENSOR_UNREACHABLE when the sensor was not announced; PACKET_UNREADABLE when a record of the batch is damaged
   */
  receive(sensor_id: string, page: string, first: number, sent_s: number, bytes: Uint8Array): number {
    const sensor = this.sensors.get(sensor_id);
    if (sensor === undefined) throw notAnnounced(sensor_id);
    sensor.heard_s = hostTime();
    const decoded = decodeRecords(bytes);
    const impossible = decoded.records.some(
      ({ arrival_s }) => arrival_s > sent_s + AHEAD_S || arrival_s < sent_s - KEPT_S,
    );
    const damaged = impossible
      ? bytes.length
      : bytes.length - decoded.good_bytes + decoded.damaged.reduce((sum, part) => sum + part.bytes, 0);
    if (damaged > 0)
      throw new FaultError(
        fault('PACKET_UNREADABLE.batch', { sensor_id, damaged, bytes: bytes.length }, { sensor_id }),
      );
    const offset = Math.min(this.offsets.get(page) ?? Number.POSITIVE_INFINITY, sensor.heard_s - sent_s);
    this.offsets.delete(page);
    this.offsets.set(page, offset);
    if (this.offsets.size > MOST_PAGES) this.offsets.delete(this.offsets.keys().next().value!);
    if (first > sensor.next_record || sensor.handlers === null) return sensor.next_record;
    const taken = sensor.next_record - first;
    sensor.next_record = Math.max(sensor.next_record, first + decoded.records.length);
    for (const record of decoded.records.slice(taken)) {
      if (record.kind === 'packet') sensor.handlers?.packet(record.bytes, record.arrival_s + offset, record.source);
      if (record.kind !== 'event') continue;
      if (record.event.event === 'link_lost') this.lose(sensor, reasonOf(record.event.reason));
      if (record.event.event === 'start_written') sensor.handlers?.startWritten?.(record.arrival_s + offset);
      if (record.event.event === 'stream_started') sensor.handlers?.started?.(record.arrival_s + offset);
    }
    return sensor.next_record;
  }

  async startScan(found: (sensor: SensorFound) => void): Promise<void> {
    for (const sensor of this.sensors.values()) found(sensor.found);
  }

  async stopScan(): Promise<void> {}

  async open(
    sensor_id: string,
    _description: StreamDescription,
    _settings: StreamSettings,
    handlers: LinkHandlers,
  ): Promise<SensorLink> {
    const sensor = this.sensors.get(sensor_id);
    if (sensor === undefined || hostTime() - sensor.heard_s > GONE_S) throw notAnnounced(sensor_id);
    sensor.handlers = handlers;
    return {
      information: { ...NO_INFORMATION, battery_percent: sensor.battery_percent },
      readBattery: async () => sensor.battery_percent,
      close: async () => {
        if (sensor.handlers === handlers) sensor.handlers = null;
      },
    };
  }

  async close(): Promise<void> {
    clearInterval(this.watch);
    this.sensors.clear();
  }

  private forgetGone(): void {
    for (const [sensor_id, { heard_s, handlers }] of this.sensors) {
      if (handlers === null && hostTime() - heard_s > GONE_S) this.sensors.delete(sensor_id);
    }
  }

  private look(): void {
    for (const sensor of this.sensors.values()) {
      if (hostTime() - sensor.heard_s > GONE_S) this.lose(sensor, notice('page_sends_nothing'));
    }
  }

  private lose(sensor: BrowserSensor, reason: Notice): void {
    const { handlers } = sensor;
    sensor.handlers = null;
    handlers?.lost(reason);
  }
}

/** What a page says of a lost link. It comes from outside: only what pages say is taken over. */
function reasonOf(reason: unknown): Notice {
  if (typeof reason === 'string') return reason.slice(0, MOST_WORDS);
  const { notice: key, values } = (reason ?? {}) as { notice?: unknown; values?: { seconds?: unknown } };
  if (key === 'let_go_by_page') return notice('let_go_by_page');
  const seconds = Number(values?.seconds);
  if (key === 'no_data_for' && seconds > 0 && seconds < 1e6) return notice('no_data_for', { seconds });
  return notice('link_to_browser_broke');
}

function notAnnounced(sensor_id: string): FaultError {
  return new FaultError(fault('SENSOR_UNREACHABLE.browser', { sensor_id }, { sensor_id }));
}

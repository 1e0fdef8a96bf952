import { clockOf } from '../../../ingest/ble/assembly/arrival-clock.ts';
import { feedLog, type PacketLog } from '../../../ingest/ble/assembly/read-packet-log.ts';
import { StreamAssembler } from '../../../ingest/ble/assembly/stream-assembler.ts';
import { hostTime } from '../../../ingest/ble/sources/host-clock.ts';
import type { PacketSource, SensorLink } from '../../../ingest/ble/sources/packet-source.ts';
import { type Notice, notice, SILENT } from '../../../shared/notice.ts';
import type { LogEvent, LogHeader } from '../../../shared/packet-record.ts';
import type { PairedSensor, SensorPlace } from '../../../shared/schemas/capture.ts';
import type { StreamDescription } from '../../../shared/schemas/stream-description.ts';
import { commonTime } from '../../../shared/sensor-clock.ts';
import { Movement } from '../sensors/movement.ts';
import { sensorNotice } from '../sensors/sensor-notice.ts';
import { SignalStrip } from '../sensors/signal-strip.ts';
import { LinkKeeper } from './link-keeper.ts';
import type { PacketLogWriter } from './packet-log-writer.ts';
import { RecentRecords } from './recent-records.ts';
import { StreamOddities } from './stream-oddities.ts';

/** How much of the past is held for the live analysis, seconds. */
export const KEEP_S = 180;
const BATTERY_S = 60;

export interface SessionParts {
  sensor_id: string;
  place: SensorPlace;
  description: StreamDescription;
  source: PacketSource;
  log: PacketLogWriter;
  say: (what: Notice) => void;
}

/** One sensor of a running capture: puts every packet on disk and then into the assembler, and knows how it is doing. */
export class SensorSession {
  readonly sensor_id: string;
  place: SensorPlace;
  readonly assembler: StreamAssembler;
  readonly recent = new RecentRecords(KEEP_S);
  readonly strip: SignalStrip;
  readonly movement: Movement;
  readonly log: PacketLogWriter;
  header: LogHeader;
  /** Why it is recorded but not measured; nothing where it is. */
  set_aside: Notice = SILENT;
  private readonly parts: SessionParts;
  private readonly keeper: LinkKeeper;
  private battery_s = 0;
  private battery_percent: number | null = null;
  private firmware: string | null = null;
  private rssi_dbm: number | null = null;
  private told_narrow = false;
  private readonly oddities = new StreamOddities();

  constructor(parts: SessionParts) {
    const { sensor_id, place, description, say } = parts;
    this.parts = parts;
    this.sensor_id = sensor_id;
    this.place = place;
    this.log = parts.log;
    this.assembler = new StreamAssembler(description, place.settings, KEEP_S);
    this.strip = new SignalStrip(place.settings.rate_hz);
    this.movement = new Movement(place.settings.rate_hz);
    this.header = {
      format: 'packet-log/1',
      sensor_id,
      sensor_name: place.name,
      side: place.side,
      mounting: place.mounting,
      description,
      settings: place.settings,
    };
    this.keeper = new LinkKeeper({
      open: (lost) => this.open(lost),
      linked: (link) => this.learn(link),
      broke: (reason) => this.note({ event: 'link_lost', reason }),
      awayFrom: (why) => say(notice('link_lost', { name: this.place.name, why })),
      backAfter: (seconds) => say(notice('link_back', { name: this.place.name, seconds })),
    });
  }

  /** Takes up what an earlier run of the program had written. */
  prefill(log: PacketLog): void {
    const last_s = log.records.at(-1)?.arrival_s ?? 0;
    const records = log.records.filter((record) => record.arrival_s > last_s - KEEP_S);
    feedLog({ ...log, records }, this.assembler);
    this.assembler.finish();
    for (const record of records) if (record.kind !== 'header') this.recent.add(record);
  }

  /** Another side, mounting, athlete or name, while recording goes on; rate and ranges stay as they are. */
  setPlace({ name, side, mounting, athlete_id }: SensorPlace): void {
    this.place = { ...this.place, name, side, mounting, athlete_id };
    this.changeHeader({ sensor_name: name, side, mounting });
  }

  /** Keeps the sensor connected until `stop`. */
  start(): void {
    this.keeper.start();
  }

  async stop(): Promise<void> {
    await this.keeper.stop();
    this.note({ event: 'stopped' });
  }

  /** Called a few times a second: notices silence, asks for the battery, tells what is odd about the stream. */
  tend(now_s = hostTime()): void {
    this.tellOddities();
    this.keeper.tend(now_s);
    const { link } = this.keeper;
    if (link === null || now_s - this.battery_s <= BATTERY_S) return;
    this.battery_s = now_s;
    void link.readBattery().then((percent) => {
      this.battery_percent = percent ?? this.battery_percent;
    });
  }

  status(athlete_name: string | null, now_s = hostTime()): PairedSensor {
    const { assembler, keeper, movement, place } = this;
    const { counts } = assembler;
    const fit = assembler.clockFit();
    const measured = assembler.measuredRate();
    const silent_s = keeper.last_packet_s === null ? null : now_s - keeper.last_packet_s;
    const battery_percent = assembler.battery_percent ?? this.battery_percent;
    return {
      ...place,
      sensor_id: this.sensor_id,
      athlete_name,
      state: keeper.state,
      words: sensorNotice({
        state: keeper.state,
        for_s: keeper.forSeconds(now_s),
        silent_s,
        battery_percent,
        unreadable_packets: counts.unreadable_packets,
        packets: counts.packets,
        reason: keeper.reason,
        doubt: this.oddities.standing(place.settings.rate_hz, measured) || this.set_aside,
      }),
      battery_percent,
      firmware: this.firmware,
      rssi_dbm: this.rssi_dbm,
      measured_rate_hz: measured?.rate_hz ?? null,
      rate_off: measured?.off ?? false,
      samples: counts.samples,
      lost_samples: counts.lost_samples,
      duplicate_packets: counts.duplicate_packets,
      unreadable_packets: counts.unreadable_packets,
      reconnects: keeper.reconnects,
      silent_s,
      drift_ppm: fit === null ? null : fit.drift * 1e6,
      clock_u_ms: fit === null ? null : fit.offset_u_s * 1000,
      tap_s: movement.tapped_s === null ? null : now_s - movement.tapped_s,
    };
  }

  get live(): boolean {
    return this.keeper.state === 'live';
  }

  /** Host time of the latest sample by the sensor's own clock; null before the first. */
  latestHostTime(): number | null {
    const fit = this.assembler.clockFit();
    const latest = this.assembler.latestTime();
    return fit === null || latest === null ? null : commonTime(latest, clockOf(fit));
  }

  private open(lost: (reason: Notice) => void): Promise<SensorLink> {
    const { source, sensor_id, description } = this.parts;
    this.note({ event: 'link_started', awaits_start: source.tells_start === true });
    return source.open(
      sensor_id,
      description,
      this.place.settings,
      {
        packet: (bytes, arrival_s, from) => this.take(bytes, arrival_s, from),
        lost,
        ended: () => {
          this.assembler.finish();
          this.keeper.ended();
        },
        startWritten: (at_s) => this.note({ event: 'start_written' }, at_s),
        started: (at_s) => this.note({ event: 'stream_started' }, at_s),
        battery: (percent) => {
          this.battery_percent = percent;
          this.battery_s = hostTime();
        },
      },
      { code: this.place.code ?? null, record_on_sensor: this.place.record_on_sensor ?? false },
    );
  }

  private learn({ information }: SensorLink): void {
    this.battery_s = hostTime();
    this.battery_percent = information.battery_percent ?? this.battery_percent;
    this.firmware = information.device_information.firmware_revision ?? this.firmware;
    this.rssi_dbm = information.rssi_dbm ?? this.rssi_dbm;
    this.tellNarrowLink(information.mtu);
  }

  /** Disk first, then everything else. */
  private take(bytes: Uint8Array, arrival_s: number, source = 0): void {
    const record = { kind: 'packet' as const, arrival_s, bytes, source };
    this.log.append(record);
    this.recent.add(record);
    this.keeper.packetCame(arrival_s);
    const added = this.assembler.add(bytes, arrival_s, source);
    if (added === null) return;
    this.strip.add(added);
    this.movement.add(added, arrival_s);
  }

  private note(event: LogEvent, arrival_s = hostTime()): void {
    const record = { kind: 'event' as const, arrival_s, event };
    this.log.append(record);
    this.recent.add(record);
    if (event.event === 'link_started') this.assembler.linkStarted(arrival_s, event.awaits_start);
    if (event.event === 'start_written') this.assembler.startWritten(arrival_s);
    if (event.event === 'stream_started') this.assembler.streamStarted(arrival_s);
    if (event.event === 'stopped') this.assembler.finish();
  }

  private tellOddities(): void {
    const { counts, corrected_rate_hz } = this.assembler;
    const { name, settings } = this.place;
    const measured = this.assembler.measuredRate();
    for (const what of this.oddities.news(name, settings.rate_hz, counts, measured)) this.parts.say(what);
    // From now on the log says by which rate its samples are to be timed.
    if (corrected_rate_hz === null || !this.oddities.rateChanged(corrected_rate_hz)) return;
    this.changeHeader({ measured_rate_hz: corrected_rate_hz });
  }

  private changeHeader(change: Partial<LogHeader>): void {
    this.header = { ...this.header, ...change };
    this.log.append({ kind: 'header', arrival_s: hostTime(), header: this.header });
  }

  /** Packets are cut short, or never come, on a link that is narrower than they are. */
  private tellNarrowLink(mtu: number | null): void {
    const needed = this.parts.description.connection?.least_mtu;
    if (needed === undefined || mtu === null || mtu >= needed || this.told_narrow) return;
    this.told_narrow = true;
    this.parts.say(notice('narrow_link', { name: this.place.name, mtu, needed }));
  }
}

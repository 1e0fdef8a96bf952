import { errorWords } from '../../error-words.ts';
import { clockOf } from '../../../ingest/ble/assembly/arrival-clock.ts';
import { commonTime } from '../../../shared/sensor-clock.ts';
import { hostTime } from '../../../ingest/ble/sources/host-clock.ts';
import type { LogEvent, LogHeader } from '../../../shared/packet-record.ts';
import type { PacketSource, SensorLink } from '../../../ingest/ble/sources/packet-source.ts';
import { feedLog, type PacketLog } from '../../../ingest/ble/assembly/read-packet-log.ts';
import { StreamAssembler } from '../../../ingest/ble/assembly/stream-assembler.ts';
import type { PairedSensor, SensorPlace, SensorState } from '../../../shared/schemas/capture.ts';
import type { StreamDescription } from '../../../shared/schemas/stream-description.ts';
import { sensorWords, WORDS } from '../sensors/capture-words.ts';
import { Movement } from '../sensors/movement.ts';
import type { PacketLogWriter } from './packet-log-writer.ts';
import { RecentRecords } from './recent-records.ts';
import { SignalStrip } from '../sensors/signal-strip.ts';
import { StreamOddities } from './stream-oddities.ts';

/** How much of the past is held for the live analysis, seconds. */
export const KEEP_S = 180;
const SILENT_S = 2;
/** Silence after which the link is dropped and made anew. */
const GIVE_UP_S = 8;
const BACK_OFF_S = [0.3, 0.6, 1.2, 2.5, 5, 8];
const BATTERY_S = 60;

export interface SessionParts {
  sensor_id: string;
  place: SensorPlace;
  description: StreamDescription;
  source: PacketSource;
  log: PacketLogWriter;
  say: (text: string) => void;
}

/**
 * One sensor of a running capture: keeps its link up, puts every packet on disk and then into the assembler, knows how it
 * is doing. A broken link is made again with growing pauses, for as long as the capture runs, into the same recording.
 */
export class SensorSession {
  readonly sensor_id: string;
  place: SensorPlace;
  readonly assembler: StreamAssembler;
  readonly recent = new RecentRecords(KEEP_S);
  readonly strip: SignalStrip;
  readonly movement: Movement;
  readonly log: PacketLogWriter;
  header: LogHeader;
  /** Why it is recorded but not measured; empty where it is. */
  set_aside = '';
  private readonly parts: SessionParts;
  private state: SensorState = 'off';
  private state_since_s = hostTime();
  private link: SensorLink | null = null;
  private running = false;
  private wake: (() => void) | null = null;
  private reason = '';
  private last_packet_s: number | null = null;
  private linked_s = 0;
  /** Since when a lost link has not been followed by a packet; null while all is well. */
  private without_data_s: number | null = null;
  private battery_s = 0;
  private battery_percent: number | null = null;
  private firmware: string | null = null;
  private reconnects = 0;
  private rssi_dbm: number | null = null;
  private told_narrow = false;
  private readonly oddities = new StreamOddities();

  constructor(parts: SessionParts) {
    const { sensor_id, place, description } = parts;
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
    this.header = { ...this.header, sensor_name: name, side, mounting };
    this.log.append({ kind: 'header', arrival_s: hostTime(), header: this.header });
  }

  /** Keeps the sensor connected until `stop`. */
  start(): void {
    if (this.running) return;
    this.running = true;
    this.enter('connecting');
    void this.keepConnected();
  }

  async stop(): Promise<void> {
    this.running = false;
    this.wake?.();
    const link = this.link;
    this.link = null;
    await link?.close();
    this.note({ event: 'stopped' });
    this.enter('off');
  }

  /** Called a few times a second: notices silence, asks for the battery, tells what is odd about the stream. */
  tend(now_s = hostTime()): void {
    this.tellOddities();
    if (this.link === null) return;
    const silent_s = now_s - Math.max(this.last_packet_s ?? 0, this.linked_s);
    if (this.state === 'live' && silent_s > SILENT_S) this.enter('silent');
    if (silent_s > GIVE_UP_S) {
      const link = this.link;
      this.lost(`no data for ${GIVE_UP_S} s`);
      void link.close();
      return;
    }
    if (now_s - this.battery_s > BATTERY_S) {
      this.battery_s = now_s;
      void this.link?.readBattery().then((percent) => {
        this.battery_percent = percent ?? this.battery_percent;
      });
    }
  }

  private tellOddities(): void {
    const { counts, corrected_rate_hz } = this.assembler;
    for (const words of this.oddities.news(
      this.place.name,
      this.place.settings.rate_hz,
      counts,
      this.assembler.measuredRate(),
    )) {
      this.parts.say(words);
    }
    // From now on the log says by which rate its samples are to be timed.
    if (corrected_rate_hz === null || !this.oddities.rateChanged(corrected_rate_hz)) return;
    this.header = { ...this.header, measured_rate_hz: corrected_rate_hz };
    this.log.append({ kind: 'header', arrival_s: hostTime(), header: this.header });
  }

  status(athlete_name: string | null, now_s = hostTime()): PairedSensor {
    const fit = this.assembler.clockFit();
    const { counts } = this.assembler;
    const measured = this.assembler.measuredRate();
    const silent_s = this.last_packet_s === null ? null : now_s - this.last_packet_s;
    const battery_percent = this.assembler.battery_percent ?? this.battery_percent;
    return {
      ...this.place,
      sensor_id: this.sensor_id,
      athlete_name,
      state: this.state,
      words: sensorWords({
        state: this.state,
        for_s: now_s - this.state_since_s,
        silent_s,
        battery_percent,
        unreadable_packets: counts.unreadable_packets,
        packets: counts.packets,
        reason: this.reason,
        doubt: this.oddities.standing(this.place.settings.rate_hz, measured) || this.set_aside,
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
      reconnects: this.reconnects,
      silent_s,
      drift_ppm: fit === null ? null : fit.drift * 1e6,
      clock_u_ms: fit === null ? null : fit.offset_u_s * 1000,
      tap_s: this.movement.tapped_s === null ? null : now_s - this.movement.tapped_s,
    };
  }

  get live(): boolean {
    return this.state === 'live';
  }

  /** Host time of the latest sample by the sensor's own clock; null before the first. */
  latestHostTime(): number | null {
    const fit = this.assembler.clockFit();
    const latest = this.assembler.latestTime();
    return fit === null || latest === null ? null : commonTime(latest, clockOf(fit));
  }

  private async keepConnected(): Promise<void> {
    let failures = 0;
    while (this.running) {
      try {
        await this.connect();
        const linked_s = this.linked_s;
        await new Promise<void>((resolve) => {
          this.wake = resolve;
          // The link may have broken before anybody waited for it.
          if (this.link === null) resolve();
        });
        // A link without a packet is no better than none: the pauses go on growing.
        failures = (this.last_packet_s ?? 0) > linked_s ? 0 : failures + 1;
      } catch (error) {
        this.reason = plainReason(error);
        failures++;
      }
      if (!this.running) return;
      await this.pause(BACK_OFF_S[Math.min(failures, BACK_OFF_S.length - 1)]);
    }
  }

  private async connect(): Promise<void> {
    const { source, sensor_id, description } = this.parts;
    let broken = '';
    this.note({ event: 'link_started', awaits_start: source.tells_start === true });
    const link = await source.open(
      sensor_id,
      description,
      this.place.settings,
      {
        packet: (bytes, arrival_s, source) => this.take(bytes, arrival_s, source),
        lost: (reason) => {
          broken = reason;
          if (this.link !== null) this.lost(reason);
        },
        ended: () => this.ended(),
        startWritten: (at_s) => this.note({ event: 'start_written' }, at_s),
        started: (at_s) => this.note({ event: 'stream_started' }, at_s),
        battery: (percent) => {
          this.battery_percent = percent;
          this.battery_s = hostTime();
        },
      },
      { code: this.place.code ?? null, record_on_sensor: this.place.record_on_sensor ?? false },
    );
    if (broken !== '') throw new Error(broken);
    if (!this.running) {
      await link.close();
      return;
    }
    this.link = link;
    this.linked_s = hostTime();
    this.battery_s = this.linked_s;
    this.battery_percent = link.information.battery_percent ?? this.battery_percent;
    this.firmware = link.information.device_information.firmware_revision ?? this.firmware;
    this.rssi_dbm = link.information.rssi_dbm ?? this.rssi_dbm;
    this.tellNarrowLink(link.information.mtu);
    if (this.state !== 'live') this.enter('live');
  }

  /** A replay is through with this sensor: no silence to warn of, nothing to connect to again. */
  private ended(): void {
    this.link = null;
    this.assembler.finish();
    this.enter('off');
  }

  private lost(reason: string): void {
    this.link = null;
    this.reason = reason;
    if (this.running) {
      this.reconnects++;
      this.note({ event: 'link_lost', reason });
      this.enter('lost');
      // Said once, however many links without data follow.
      if (this.without_data_s === null) this.parts.say(WORDS.linkLost(this.place.name, reason));
      this.without_data_s ??= hostTime();
    }
    this.wake?.();
  }

  /** Disk first, then everything else. */
  private take(bytes: Uint8Array, arrival_s: number, source = 0): void {
    const record = { kind: 'packet' as const, arrival_s, bytes, source };
    this.log.append(record);
    this.recent.add(record);
    this.last_packet_s = arrival_s;
    if (this.without_data_s !== null) {
      this.parts.say(WORDS.linkBack(this.place.name, arrival_s - this.without_data_s));
      this.without_data_s = null;
    }
    if (this.state === 'silent') this.enter('live');
    const added = this.assembler.add(bytes, arrival_s, source);
    if (added === null) return;
    this.strip.add(added);
    this.movement.add(added, arrival_s);
  }

  private note(event: LogEvent, at_s = hostTime()): void {
    const record = { kind: 'event' as const, arrival_s: at_s, event };
    this.log.append(record);
    this.recent.add(record);
    const { arrival_s } = record;
    if (event.event === 'link_started') this.assembler.linkStarted(arrival_s, event.awaits_start);
    if (event.event === 'start_written') this.assembler.startWritten(arrival_s);
    if (event.event === 'stream_started') this.assembler.streamStarted(arrival_s);
    if (event.event === 'stopped') this.assembler.finish();
  }

  /** Packets are cut short, or never come, on a link that is narrower than they are. */
  private tellNarrowLink(mtu: number | null): void {
    const needed = this.parts.description.connection?.least_mtu;
    if (needed === undefined || mtu === null || mtu >= needed || this.told_narrow) return;
    this.told_narrow = true;
    this.parts.say(WORDS.narrowLink(this.place.name, mtu, needed));
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

function plainReason(error: unknown): string {
  return errorWords(error).replace(/\.\s*$/, '');
}

import { hostTime } from '../../../ingest/ble/sources/host-clock.ts';
import type { ExploredSensor, PacketSource } from '../../../ingest/ble/sources/packet-source.ts';
import {
  cadenceCounts,
  decodeRunningSpeedAndCadence,
  RSC_MEASUREMENT_UUID,
  RUNNING_SPEED_AND_CADENCE_UUID,
  type RunningSpeedAndCadence,
} from '../../../ingest/ble/packets/standard-services.ts';
import { errorNotice } from '../../error-words.ts';
import { type Notice, SILENT } from '../../../shared/notice.ts';
import type { SpeedCheck as SpeedCheckState } from '../../../shared/schemas/capture.ts';

/** Between two tries to connect, milliseconds. */
const AGAIN_MS = 3000;
/** The service's measurement comes about once a second; one older than this says nothing of now, seconds. */
const STALE_S = 4;

/** What a sensor is and whose. */
export interface CheckPlace {
  sensor_id: string;
  name: string;
  athlete_id: number | null;
}

/**
 * A sensor with the standard service Running Speed and Cadence, held as a second opinion: what it says is shown beside what is
 * measured here, and never enters a result.
 */
export class SpeedCheck {
  readonly place: CheckPlace;
  private readonly source: PacketSource;
  private link: ExploredSensor | null = null;
  private latest: RunningSpeedAndCadence | null = null;
  private latest_s = 0;
  private counts: 'steps' | 'strides' | null = null;
  private reason: Notice = SILENT;
  private closed = false;
  private timer: NodeJS.Timeout | null = null;
  private trying: Promise<void>;

  constructor(source: PacketSource, place: CheckPlace) {
    this.source = source;
    this.place = place;
    this.trying = this.connect();
  }

  state(athlete_name: string | null, now_s = hostTime()): SpeedCheckState {
    const fresh = this.link !== null && now_s - this.latest_s < STALE_S ? this.latest : null;
    const per_step = this.counts === 'strides' ? 2 : 1;
    const known = fresh !== null && this.counts !== null;
    return {
      ...this.place,
      athlete_name,
      state: this.link === null ? 'connecting' : fresh === null ? 'silent' : 'live',
      reason: this.link === null ? this.reason : SILENT,
      speed_mps: fresh?.speed_mps ?? null,
      cadence_per_min: fresh?.cadence_per_min ?? null,
      cadence_counts: this.counts,
      step_rate_hz: known ? (per_step * fresh.cadence_per_min) / 60 : null,
    };
  }

  async close(): Promise<void> {
    this.closed = true;
    if (this.timer !== null) clearTimeout(this.timer);
    await this.trying;
    await this.link?.close();
    this.link = null;
  }

  private async connect(): Promise<void> {
    let broken: Notice = SILENT;
    try {
      const link = await this.source.explore!(this.place.sensor_id, (reason) => {
        broken = reason;
        this.lost(reason);
      });
      await link.subscribe(RUNNING_SPEED_AND_CADENCE_UUID, RSC_MEASUREMENT_UUID, (bytes, arrival_s) =>
        this.take(bytes, arrival_s),
      );
      if (broken !== SILENT) return;
      if (this.closed) await link.close();
      else this.link = link;
    } catch (error) {
      this.lost(errorNotice(error));
    }
  }

  private lost(reason: Notice): void {
    this.link = null;
    this.reason = reason;
    if (this.closed || this.timer !== null) return;
    this.timer = setTimeout(() => {
      this.timer = null;
      this.trying = this.connect();
    }, AGAIN_MS);
    this.timer.unref();
  }

  private take(bytes: Uint8Array, arrival_s: number): void {
    try {
      this.latest = decodeRunningSpeedAndCadence(bytes);
    } catch (error) {
      this.reason = errorNotice(error);
      return;
    }
    this.latest_s = arrival_s;
    // Decided by one measurement that tells; the device does not change what it counts.
    this.counts ??= cadenceCounts(this.latest);
  }
}

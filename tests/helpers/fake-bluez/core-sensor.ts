import { type ChildProcess, spawn } from 'node:child_process';
import type { FakeSensor } from './fake-sensor.ts';
import type { Disturbances, SimulatedSensorOptions } from './sensor-options.ts';

/** The reference sensor's own program (compiled C), fed with samples at true speed; the fake radio is its radio. */
export class CoreSensor implements FakeSensor {
  readonly options: SimulatedSensorOptions;
  disturbances: Disturbances = {};
  private readonly child: ChildProcess;
  private readonly writes: string[] = [];
  private data: Uint8Array[] = [];
  private told: Uint8Array[] = [];
  private replies: ((done: boolean) => void)[] = [];
  private rest = '';
  private started_s: number | null = null;
  private fed = 0;
  /** Which fed sample was the first of `core.samples`. */
  private begun_at: number | null = null;
  private delivered_packets = 0;

  constructor(options: SimulatedSensorOptions) {
    this.options = options;
    this.child = spawn(options.core!.binary, { stdio: ['pipe', 'pipe', 'inherit'] });
    this.child.stdout!.on('data', (chunk: Buffer) => this.read(chunk.toString()));
  }

  write(hex: string): Promise<boolean> {
    this.writes.push(hex);
    // Sampling begins with the first start, so that what is fed is what is streamed or recorded.
    if (/^(10|20) 01/.test(hex)) this.started_s ??= now();
    if (hex.startsWith('20 01') && this.options.core!.stands) this.begun_at ??= this.fed;
    return this.command(`control ${hex.replaceAll(' ', '')}`);
  }

  linkLost(): void {
    void this.command('disconnect');
  }

  due(linked: boolean): { source: number; bytes: Uint8Array }[] {
    this.feed();
    void this.command('idle 4');
    const out = this.data.splice(0);
    if (!linked) return [];
    this.delivered_packets += out.length;
    return out.map((bytes) => ({ source: 0, bytes }));
  }

  answers(): { characteristic_uuid: string; bytes: Uint8Array }[] {
    const { drop = 0 } = this.disturbances;
    const characteristic_uuid = this.options.description.recordings!.data_characteristic_uuid;
    const all = this.told.splice(0).map((bytes) => ({ characteristic_uuid, bytes }));
    return drop === 0 ? all : all.filter(() => Math.random() >= drop);
  }

  report() {
    return {
      first_sample: this.options.core!.stands ? this.begun_at : 0,
      end_sample: this.fed,
      delivered_packets: this.delivered_packets,
      dropped_packets: 0,
      writes: this.writes,
      last_delivery_s: 0,
      rate_hz: this.options.description.rates[0].rate_hz,
    };
  }

  close(): void {
    this.child.stdin!.end();
  }

  private feed(): void {
    if (this.started_s === null) return;
    const { samples, stands = false } = this.options.core!;
    const { rate_hz } = this.options.description.rates[0];
    const most = stands ? Number.POSITIVE_INFINITY : samples.length;
    const due = Math.min(most, Math.floor((now() - this.started_s) * rate_hz));
    const from = stands ? (this.begun_at ?? Number.POSITIVE_INFINITY) : 0;
    let text = '';
    for (; this.fed < due; this.fed++) {
      text += `sample ${Math.round((this.fed * 1e6) / rate_hz)} ${samples[Math.max(0, Math.min(this.fed - from, samples.length - 1))].join(' ')}\n`;
    }
    if (text !== '') this.child.stdin!.write(text);
  }

  private command(line: string): Promise<boolean> {
    return new Promise((resolve) => {
      this.replies.push(resolve);
      this.child.stdin!.write(`${line}\n`);
    });
  }

  private read(chunk: string): void {
    const lines = (this.rest + chunk).split('\n');
    this.rest = lines.pop()!;
    for (const line of lines) {
      const [what, hex] = line.split(' ');
      if (what === 'data') this.data.push(Buffer.from(hex, 'hex'));
      else if (what === 'answer') this.told.push(Buffer.from(hex, 'hex'));
      else this.replies.shift()?.(what === 'done');
    }
  }
}

function now(): number {
  return Number(process.hrtime.bigint()) / 1e9;
}

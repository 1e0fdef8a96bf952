/**
 * A private system bus with a fake org.bluez on it: radio without a radio, down to the D-Bus messages that node-ble and
 * Chromium exchange with the real one.
 */
import { type ChildProcess, fork, spawn } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Disturbances, SimulatedSensorOptions } from './simulated-sensor.ts';

export interface SensorReport {
  first_sample: number | null;
  end_sample: number;
  delivered_packets: number;
  dropped_packets: number;
  writes: string[];
  last_delivery_s: number;
  connects: number;
  rate_hz: number;
}

export class FakeBluez {
  /** Value for DBUS_SYSTEM_BUS_ADDRESS. */
  readonly address: string;
  private readonly folder: string;
  private daemon: ChildProcess | null = null;
  private child: ChildProcess | null = null;
  private readonly waiting = new Map<number, { resolve: (value: never) => void; reject: (error: Error) => void }>();
  private calls = 0;

  private constructor() {
    this.folder = mkdtempSync(join(tmpdir(), 'fake-bluez-'));
    this.address = `unix:path=${join(this.folder, 'bus')}`;
  }

  static async start(sensors: SimulatedSensorOptions[]): Promise<FakeBluez> {
    const fake = new FakeBluez();
    await fake.startBus();
    const child = fork(new URL('fake-bluez-process.ts', import.meta.url).pathname, {
      execArgv: ['--import', 'tsx'],
      stdio: ['ignore', 'inherit', 'inherit', 'ipc'],
    });
    fake.child = child;
    child.on('message', ({ id, result, error }: { id: number; result: never; error?: string }) => {
      const call = fake.waiting.get(id);
      fake.waiting.delete(id);
      if (error === undefined) call?.resolve(result);
      else call?.reject(new Error(error));
    });
    await fake.call('begin', fake.address, sensors);
    return fake;
  }

  async startBus(): Promise<void> {
    const config = join(this.folder, 'bus.conf');
    writeFileSync(
      config,
      `<!DOCTYPE busconfig PUBLIC "-//freedesktop//DTD D-Bus Bus Configuration 1.0//EN"
        "http://www.freedesktop.org/standards/dbus/1.0/busconfig.dtd">
      <busconfig><type>system</type><listen>${this.address}</listen><auth>EXTERNAL</auth>
      <policy context="default"><allow user="*"/><allow own="*"/><allow send_destination="*" eavesdrop="true"/>
      <allow receive_sender="*"/></policy></busconfig>`,
    );
    rmSync(join(this.folder, 'bus'), { force: true });
    const daemon = spawn('dbus-daemon', [`--config-file=${config}`, '--nofork', '--nopidfile'], { stdio: 'ignore' });
    this.daemon = daemon;
    for (let i = 0; i < 200 && !existsSync(join(this.folder, 'bus')); i++) await pause(20);
    if (!existsSync(join(this.folder, 'bus'))) throw new Error('dbus-daemon did not start');
  }

  /** Kills the message bus outright. */
  async killBus(): Promise<void> {
    const daemon = this.daemon;
    if (daemon === null) return;
    this.daemon = null;
    const ended = new Promise((resolve) => daemon.once('exit', resolve));
    daemon.kill('SIGKILL');
    await ended;
  }

  async restartBluetoothd(down_ms = 1000): Promise<void> {
    await this.call('stopBluetoothd');
    await pause(down_ms);
    await this.call('startBluetoothd');
  }

  stopBluetoothd = () => this.call('stopBluetoothd');
  startBluetoothd = () => this.call('startBluetoothd');
  drop = (sensor: string) => this.call('drop', sensor);
  setInRange = (sensor: string, in_range: boolean) => this.call('setInRange', sensor, in_range);
  failNextConnects = (sensor: string, count: number) => this.call('failNextConnects', sensor, count);
  setBattery = (sensor: string, percent: number) => this.call('setBattery', sensor, percent);
  setAdapterPresent = (present: boolean) => this.call('setAdapterPresent', present);
  disturb = (sensor: string, disturbances: Disturbances) => this.call('disturb', sensor, disturbances);
  report = (sensor: string) => this.call('report', sensor) as Promise<SensorReport>;

  private call(command: string, ...args: unknown[]): Promise<unknown> {
    const id = ++this.calls;
    return new Promise((resolve, reject) => {
      this.waiting.set(id, { resolve, reject });
      this.child!.send({ id, command, args });
    });
  }

  async close(): Promise<void> {
    const child = this.child;
    if (child !== null && child.exitCode === null) {
      const ended = new Promise((resolve) => child.once('exit', resolve));
      child.disconnect();
      await ended;
    }
    await this.killBus();
    rmSync(this.folder, { recursive: true, force: true });
  }
}

export function pause(ms: number): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, ms));
}

import type { ConnectOptions, GattConnection, GattRadio } from '../gatt-radio.ts';
import type { SensorFound, SourceState } from '../sensor-found.ts';

/** A radio whose library is loaded when it is first used: most starts of the program never reach for it. */
export class RadioWhenUsed implements GattRadio {
  private readonly load: () => Promise<GattRadio>;
  private loading: Promise<GattRadio> | null = null;
  private radio: GattRadio | null = null;

  constructor(load: () => Promise<GattRadio>) {
    this.load = load;
  }

  state(): SourceState {
    return this.radio?.state() ?? { ready: true, problem: null };
  }

  async startScan(found: (sensor: SensorFound) => void): Promise<void> {
    await (await this.loaded()).startScan(found);
  }

  async stopScan(): Promise<void> {
    await (await this.loading)?.stopScan();
  }

  async connect(sensor_id: string, options: ConnectOptions): Promise<GattConnection> {
    return (await this.loaded()).connect(sensor_id, options);
  }

  async close(): Promise<void> {
    await (await this.loading)?.close();
  }

  private loaded(): Promise<GattRadio> {
    this.loading ??= this.load().then((radio) => {
      this.radio = radio;
      return radio;
    });
    return this.loading;
  }
}

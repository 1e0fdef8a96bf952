import type { BluezBus } from './bluez-bus.ts';
import { BusError } from './bluez-bus.ts';

const PATH = '/cinderlane/agent';
const FACE = 'org.bluez.Agent1';

/** Answers BlueZ when a sensor that is being bonded asks for a code. Members: BlueZ, org.bluez.Agent1. */
export class BondingAgent {
  private readonly codes = new Map<string, string>();
  private registered: Promise<unknown> | null = null;

  /** @param code six digits; null where the sensor should need none */
  setCode(device_path: string, code: string | null): void {
    if (code === null) this.codes.delete(device_path);
    else this.codes.set(device_path, code);
  }

  /** Makes itself known, once a connection to the bus. */
  async register(bus: BluezBus): Promise<void> {
    this.registered ??= this.export(bus);
    await this.registered;
  }

  private export(bus: BluezBus): Promise<unknown> {
    const codeFor = (device: string) => {
      const code = this.codes.get(device);
      if (code !== undefined) return code;
      const refused = new BusError('org.bluez.Error.Rejected', 'no code is known for this sensor');
      throw Object.assign(refused, { dbusName: refused.name });
    };
    const nothing = () => {};
    const implementation = {
      Release: nothing,
      RequestPinCode: codeFor,
      RequestPasskey: (device: string) => Number(codeFor(device)),
      DisplayPasskey: nothing,
      RequestConfirmation: nothing,
      RequestAuthorization: nothing,
      AuthorizeService: nothing,
      Cancel: nothing,
    };
    bus.export(implementation, PATH, FACE, {
      Release: ['', ''],
      RequestPinCode: ['o', 's'],
      RequestPasskey: ['o', 'u'],
      DisplayPasskey: ['ouq', ''],
      RequestConfirmation: ['ou', ''],
      RequestAuthorization: ['o', ''],
      AuthorizeService: ['os', ''],
      Cancel: ['', ''],
    });
    const body = [PATH, 'KeyboardDisplay'];
    return bus.call('/org/bluez', 'org.bluez.AgentManager1', 'RegisterAgent', { signature: 'os', body });
  }
}

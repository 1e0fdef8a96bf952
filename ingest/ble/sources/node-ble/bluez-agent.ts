import dbus from 'dbus-next';

const PATH = '/cinderlane/agent';

/**
 * Answers BlueZ when a sensor that is being bonded asks for a code. One agent a bus connection; codes by device.
 * Members: BlueZ, org.bluez.Agent1.
 */
export class BluezAgent {
  private readonly codes = new Map<string, string>();
  private registered: Promise<void> | null = null;

  /** @param code six digits; null where the sensor should need none */
  setCode(device_path: string, code: string | null): void {
    if (code === null) this.codes.delete(device_path);
    else this.codes.set(device_path, code);
  }

  register(bus: dbus.MessageBus): Promise<void> {
    this.registered ??= this.export(bus);
    return this.registered;
  }

  private async export(bus: dbus.MessageBus): Promise<void> {
    const codes = this.codes;
    const codeFor = (device: string) => {
      const code = codes.get(device);
      if (code === undefined) throw new dbus.DBusError('org.bluez.Error.Rejected', 'no code is known for this sensor');
      return code;
    };
    const { Interface } = dbus.interface;
    class Agent extends Interface {
      Release(): void {}
      RequestPinCode(device: string): string {
        return codeFor(device);
      }
      RequestPasskey(device: string): number {
        return Number(codeFor(device));
      }
      DisplayPasskey(): void {}
      RequestConfirmation(): void {}
      RequestAuthorization(): void {}
      AuthorizeService(): void {}
      Cancel(): void {}
    }
    const member = (inSignature: string, outSignature = '') => ({ inSignature, outSignature });
    Agent.configureMembers({
      methods: {
        Release: member(''),
        RequestPinCode: member('o', 's'),
        RequestPasskey: member('o', 'u'),
        DisplayPasskey: member('ouq'),
        RequestConfirmation: member('ou'),
        RequestAuthorization: member('o'),
        AuthorizeService: member('os'),
        Cancel: member(''),
      },
    });
    bus.export(PATH, new Agent('org.bluez.Agent1'));
    await bus.call(
      new dbus.Message({
        destination: 'org.bluez',
        path: '/org/bluez',
        interface: 'org.bluez.AgentManager1',
        member: 'RegisterAgent',
        signature: 'os',
        body: [PATH, 'KeyboardDisplay'],
      }),
    );
  }
}

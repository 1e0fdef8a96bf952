import dbus from 'dbus-next';
import { bluezError } from './bluez-objects.ts';

/** Bonding as BlueZ does it: a sensor that needs a code makes it ask the registered agent. */
export class FakePairing {
  private readonly bus: dbus.MessageBus;
  private agent: { owner: string; path: string } | null = null;

  constructor(bus: dbus.MessageBus) {
    this.bus = bus;
    bus.addMethodHandler((message: dbus.Message) => {
      if (message.member === 'RegisterAgent') this.agent = { owner: message.sender!, path: message.body[0] };
      // The exported object answers.
      return false;
    });
  }

  /** @param code what the sensor wants; none where it pairs by itself */
  async pair(device_path: string, code?: string): Promise<void> {
    if (code === undefined) return;
    if (this.agent === null) throw bluezError('AuthenticationFailed', 'no agent is there to ask');
    const answer = await this.bus
      .call(
        new dbus.Message({
          destination: this.agent.owner,
          path: this.agent.path,
          interface: 'org.bluez.Agent1',
          member: 'RequestPasskey',
          signature: 'o',
          body: [device_path],
        }),
      )
      .catch(() => null);
    if (answer?.body[0] !== Number(code)) throw bluezError('AuthenticationFailed', 'Authentication Failed');
  }
}

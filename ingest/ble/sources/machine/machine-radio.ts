import { GattPacketSource } from '../gatt-packet-source.ts';
import type { GattRadio } from '../gatt-radio.ts';
import type { PacketSource } from '../packet-source.ts';
import { RadioWhenUsed } from './radio-when-used.ts';

/** Libraries by which the radio of this machine can be reached; the first is used unless another is asked for. */
export const RADIO_LIBRARIES = ['node-ble', 'dbus-native'] as const;
export type RadioLibrary = (typeof RADIO_LIBRARIES)[number];

const LOAD: Record<RadioLibrary, (listen_s?: number) => Promise<GattRadio>> = {
  'node-ble': async (listen_s) => new (await import('../node-ble/node-ble-radio.ts')).NodeBleRadio(listen_s),
  'dbus-native': async (listen_s) => new (await import('../bluez/bluez-radio.ts')).BluezRadio(listen_s),
};

/**
 * The radio of this machine. Both ways keep the same contract (tests/ingest/ble/radio-source.test.ts); the second stands by for the day
 * that the first is given up, or where one of them has a fault with somebody's adapter. Neither is loaded before it is used.
 * @param listen_s how long a sensor that the machine does not know is listened for
 */
export function machineRadio(library: RadioLibrary, listen_s?: number): PacketSource {
  return new GattPacketSource(new RadioWhenUsed(() => LOAD[library](listen_s)));
}

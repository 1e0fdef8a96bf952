import { BluezRadio } from '../bluez/bluez-radio.ts';
import { GattPacketSource } from '../gatt-packet-source.ts';
import { NodeBleSource } from '../node-ble/node-ble-source.ts';
import type { PacketSource } from '../packet-source.ts';

/** Libraries by which the radio of this machine can be reached; the first is used unless another is asked for. */
export const RADIO_LIBRARIES = ['node-ble', 'dbus-native'] as const;
export type RadioLibrary = (typeof RADIO_LIBRARIES)[number];

/**
 * The radio of this machine. Both ways keep the same contract (tests/ingest/ble/radio-source.test.ts); the second stands by for the day
 * that the first is given up, or where one of them has a fault with somebody's adapter.
 * @param listen_s how long a sensor that the machine does not know is listened for
 */
export function machineRadio(library: RadioLibrary, listen_s?: number): PacketSource {
  return library === 'node-ble' ? new NodeBleSource(listen_s) : new GattPacketSource(new BluezRadio(listen_s));
}

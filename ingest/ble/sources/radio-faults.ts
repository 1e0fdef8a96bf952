import { FaultError } from '../../../shared/fault.ts';
import { toHex } from '../../../shared/stream-writes.ts';
import type { GattService } from './gatt-radio.ts';

/** What can be wrong with the radio of the machine, in the words shown to the coach. */
export const RADIO_PROBLEMS = {
  bus: "The machine's message bus does not answer, so Bluetooth cannot be reached. What is recorded is safe. If this does not pass within a minute, restart the machine, or let a browser hold the sensors.",
  denied:
    'This program is not allowed to use Bluetooth on this machine. What is recorded is safe. Add its user to the group that may (sudo usermod -aG bluetooth USER), log out and in, and start the program again; or let a browser hold the sensors.',
  service:
    'The Bluetooth service is not running. What is recorded is safe, and the sensors are connected again when it is back. If it stays away: systemctl restart bluetooth.',
  adapter:
    'No Bluetooth adapter is there. What is recorded is safe. Plug the adapter in again; the sensors are then connected again.',
  platform:
    'The server reaches Bluetooth by itself on Linux only. Here a browser holds the sensors: see "Sensors of this browser".',
  off: 'Bluetooth is switched off. Switch it on; the sensors are then connected again.',
};
export type RadioProblem = keyof typeof RADIO_PROBLEMS;

export function radioUnavailable(problem: RadioProblem): FaultError {
  return new FaultError({
    code: 'RADIO_UNAVAILABLE',
    message: RADIO_PROBLEMS[problem],
    where: { problem },
    hint: '',
  });
}

export function sensorUnreachable(sensor_id: string, what: string): FaultError {
  return new FaultError({
    code: 'SENSOR_UNREACHABLE',
    message: `sensor ${sensor_id} ${what}. It is tried again.`,
    where: { sensor_id },
    hint: 'Is it switched on, charged and within 10 m? Is it connected to another device?',
  });
}

export function noAnswer(sensor_id: string, begins_with: Uint8Array, within_s: number): FaultError {
  return new FaultError({
    code: 'SENSOR_UNREACHABLE',
    message: `sensor ${sensor_id} did not answer within ${within_s} s; an answer that begins with ${toHex(begins_with)} was awaited. It is tried again.`,
    where: { sensor_id },
    hint: "Check the answers in the stream description against the sensor's manual, or switch the sensor off and on.",
  });
}

export function bondRefused(sensor_id: string, reason: string, code_given: boolean): FaultError {
  return new FaultError({
    code: 'SENSOR_BOND_REFUSED',
    message: `sensor ${sensor_id} refused to be bonded (${reason}). It was not connected.`,
    where: { sensor_id },
    hint: code_given
      ? 'Check its code of six digits; remove older bonds to this sensor on this and other machines (bluetoothctl remove ADDRESS), then switch it off and on.'
      : 'Bring it into its pairing mode, remove older bonds (bluetoothctl remove ADDRESS), or give its code where it asks for one.',
  });
}

export function notAsDescribed(
  sensor_id: string,
  service_uuid: string,
  characteristic_uuid: string,
  services: GattService[],
): FaultError {
  const service = services.find((one) => one.uuid === service_uuid);
  const list = (uuids: string[]) => (uuids.length === 0 ? 'nothing' : uuids.join(', '));
  const found = service
    ? `that service offers ${list(service.characteristics.map((one) => one.uuid))}`
    : `it has no such service; it has ${list(services.map((one) => one.uuid))}`;
  return new FaultError({
    code: 'SENSOR_NOT_AS_DESCRIBED',
    message: `sensor ${sensor_id} offers no characteristic ${characteristic_uuid} in service ${service_uuid}: ${found}. It was not connected.`,
    where: { sensor_id, service_uuid, characteristic_uuid },
    hint: "Choose the stream description that fits the sensor, or correct the description's UUIDs.",
  });
}

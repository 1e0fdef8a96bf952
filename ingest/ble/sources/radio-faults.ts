import { FaultError, fault } from '../../../shared/fault.ts';
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
  return new FaultError(fault(`RADIO_UNAVAILABLE.${problem}`, {}, { problem }));
}

/** A link that failed; it is tried again. */
export function sensorUnreachable(sensor_id: string, why: 'not_heard' | 'no_services'): FaultError {
  return new FaultError(fault(`SENSOR_UNREACHABLE.${why}`, { sensor_id }, { sensor_id }));
}

/** The same, with what the radio said of it. */
export function linkFailed(sensor_id: string, how: 'failed' | 'not_connected', why: string): FaultError {
  return new FaultError(fault(`SENSOR_UNREACHABLE.${how}`, { sensor_id, why }, { sensor_id }));
}

export function noAnswer(sensor_id: string, begins_with: Uint8Array, within_s: number): FaultError {
  const values = { sensor_id, within_s, begins_with: toHex(begins_with) };
  return new FaultError(fault('SENSOR_UNREACHABLE.no_answer', values, { sensor_id }));
}

export function bondRefused(sensor_id: string, why: string, code_given: boolean): FaultError {
  const sentence = code_given ? 'SENSOR_BOND_REFUSED.with_code' : 'SENSOR_BOND_REFUSED';
  return new FaultError(fault(sentence, { sensor_id, why }, { sensor_id }));
}

export function notAsDescribed(
  sensor_id: string,
  service_uuid: string,
  characteristic_uuid: string,
  services: GattService[],
): FaultError {
  const service = services.find((one) => one.uuid === service_uuid);
  const found = (service?.characteristics ?? services).map((one) => one.uuid);
  const where = { sensor_id, service_uuid, characteristic_uuid };
  return new FaultError(
    fault('SENSOR_NOT_AS_DESCRIBED.characteristic', { ...where, has_service: service !== undefined, found }, where),
  );
}

import { FaultError } from '../../../shared/fault.ts';

/** What can be wrong with the radio of the machine, in the words shown to the coach. */
export const RADIO_PROBLEMS = {
  bus: "The machine's message bus does not answer, so Bluetooth cannot be reached. What is recorded is safe. If this does not pass within a minute, restart the machine, or let a browser hold the sensors.",
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

export function notAsDescribed(sensor_id: string, service_uuid: string, characteristic_uuid: string): FaultError {
  return new FaultError({
    code: 'SENSOR_NOT_AS_DESCRIBED',
    message: `sensor ${sensor_id} offers no characteristic ${characteristic_uuid} in service ${service_uuid}. It was not connected.`,
    where: { sensor_id, service_uuid, characteristic_uuid },
    hint: "Choose the stream description that fits the sensor, or correct the description's UUIDs.",
  });
}

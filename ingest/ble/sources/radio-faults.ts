import { FaultError, fault } from '../../../shared/fault.ts';
import { toHex } from '../../../shared/stream-writes.ts';
import type { GattService } from './gatt-radio.ts';
import type { RadioProblem } from './sensor-found.ts';

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

/** What the message bus and its libraries say of a failure, in one of these places. */
interface BusFailure {
  name?: string;
  type?: string;
  code?: string;
  message?: string;
}

/** Which of the machine's problems a failed first question shows. @param ended why the connection to the bus ended, where it did */
export function problemOf(error: BusFailure, ended: BusFailure | null): RadioProblem {
  const text = [error, ended].map((one) => `${one?.name} ${one?.type} ${one?.code} ${one?.message}`).join(' ');
  if (/AccessDenied|EACCES|EPERM|NotAuthorized|AuthFailed/.test(text)) return 'denied';
  if (/ServiceUnknown|NameHasNoOwner|not provided|UnknownMethod|does not exist/.test(text)) return 'service';
  return 'bus';
}

import type { StreamWrite } from '../../../shared/stream-writes.ts';
import type { GattConnection } from './gatt-radio.ts';
import { noAnswer } from './radio-faults.ts';
import { within } from './within.ts';

const WRITE_TIMEOUT_MS = 4000;

/**
 * Makes writes one after the other, with the answers and pauses that a description asks for.
 * @throws FaultError SENSOR_UNREACHABLE when a write fails or an answer stays away
 */
export async function runWrites(connection: GattConnection, sensor_id: string, writes: StreamWrite[]): Promise<void> {
  for (const write of writes) {
    const answered = write.answer === null ? null : await awaitAnswer(connection, sensor_id, write.answer);
    await within(
      connection.write(write.service_uuid, write.characteristic_uuid, write.bytes(Date.now()), write.with_response),
      WRITE_TIMEOUT_MS,
      'write to the sensor',
    );
    await answered?.();
    if (write.then_wait_s > 0) await new Promise((resolve) => setTimeout(resolve, write.then_wait_s * 1000));
  }
}

/** Listens first, so that an answer cannot come too soon. @returns waits for it */
async function awaitAnswer(
  connection: GattConnection,
  sensor_id: string,
  answer: NonNullable<StreamWrite['answer']>,
): Promise<() => Promise<void>> {
  const { service_uuid, characteristic_uuid, begins_with, within_s } = answer;
  let came = () => {};
  const coming = new Promise<void>((resolve) => {
    came = resolve;
  });
  await connection.subscribe(service_uuid, characteristic_uuid, (bytes) => {
    if (begins_with.every((byte, i) => bytes[i] === byte)) came();
  });
  return () =>
    within(coming, within_s * 1000, 'answer of the sensor').catch(() => {
      throw noAnswer(sensor_id, begins_with, within_s);
    });
}

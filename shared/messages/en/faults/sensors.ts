import type { FaultRoom } from '../../sentence.ts';
import type { DescriptionRemark } from '../../../description-remark.ts';
import { remarksInWords } from '../description-remarks.ts';

/** Sensors by radio: their descriptions, links, packets and memories. */
export const sensorFaults = {
  'RADIO_UNAVAILABLE.bus': {
    message:
      "The machine's message bus does not answer, so Bluetooth cannot be reached. What is recorded is safe. If this does not pass within a minute, restart the machine, or let a browser hold the sensors.",
    hint: '',
  },
  'RADIO_UNAVAILABLE.denied': {
    message:
      'This program is not allowed to use Bluetooth on this machine. What is recorded is safe. Add its user to the group that may (sudo usermod -aG bluetooth USER), log out and in, and start the program again; or let a browser hold the sensors.',
    hint: '',
  },
  'RADIO_UNAVAILABLE.service': {
    message:
      'The Bluetooth service is not running. What is recorded is safe, and the sensors are connected again when it is back. If it stays away: systemctl restart bluetooth.',
    hint: '',
  },
  'RADIO_UNAVAILABLE.adapter': {
    message:
      'No Bluetooth adapter is there. What is recorded is safe. Plug the adapter in again; the sensors are then connected again.',
    hint: '',
  },
  'RADIO_UNAVAILABLE.platform': {
    message:
      'The server reaches Bluetooth by itself on Linux only. Here a browser holds the sensors: see "Sensors of this browser".',
    hint: '',
  },
  'RADIO_UNAVAILABLE.off': {
    message: 'Bluetooth is switched off. Switch it on; the sensors are then connected again.',
    hint: '',
  },
  'SENSOR_UNREACHABLE.failed': unreachable(({ why }: { why: string }) => `failed: ${why}`),
  'SENSOR_UNREACHABLE.not_connected': unreachable(({ why }: { why: string }) => `did not connect (${why})`),
  'SENSOR_UNREACHABLE.not_heard': unreachable((_: object) => 'was not heard'),
  'SENSOR_UNREACHABLE.no_services': unreachable((_: object) => 'did not tell its services'),
  'SENSOR_UNREACHABLE.no_answer': {
    message: (
      { sensor_id, within_s, begins_with }: { sensor_id: string; within_s: number; begins_with: string },
      say,
    ) =>
      `sensor ${sensor_id} did not answer within ${say.number(within_s)} s; an answer that begins with ${begins_with} was awaited. It is tried again.`,
    hint: "Check the answers in the stream description against the sensor's manual, or switch the sensor off and on.",
  },
  'SENSOR_UNREACHABLE.browser': {
    message: ({ sensor_id }: { sensor_id: string }) =>
      `sensor ${sensor_id} is held by a browser, and that browser does not answer.`,
    hint: 'Open the live page in that browser and connect the sensor there.',
  },
  'SENSOR_UNREACHABLE.not_played': {
    message: ({ sensor_id, known }: { sensor_id: string; known: readonly string[] }, say) =>
      `sensor ${sensor_id} is not in the recording that is played; it holds ${say.list(known)}.`,
    hint: 'Choose one of the sensors of the recording.',
  },
  SENSOR_BOND_REFUSED: {
    message: ({ sensor_id, why }: { sensor_id: string; why: string }) =>
      `sensor ${sensor_id} refused to be bonded (${why}). It was not connected.`,
    hint: 'Bring it into its pairing mode, remove older bonds (bluetoothctl remove ADDRESS), or give its code where it asks for one.',
  },
  'SENSOR_BOND_REFUSED.with_code': {
    message: ({ sensor_id, why }: { sensor_id: string; why: string }) =>
      `sensor ${sensor_id} refused to be bonded (${why}). It was not connected.`,
    hint: 'Check its code of six digits; remove older bonds to this sensor on this and other machines (bluetoothctl remove ADDRESS), then switch it off and on.',
  },
  'SENSOR_NOT_AS_DESCRIBED.characteristic': {
    message: (
      {
        sensor_id,
        characteristic_uuid,
        service_uuid,
        has_service,
        found,
      }: {
        sensor_id: string;
        characteristic_uuid: string;
        service_uuid: string;
        has_service: boolean;
        found: readonly string[];
      },
      say,
    ) => {
      const list = found.length === 0 ? 'nothing' : say.list(found);
      const offer = has_service ? `that service offers ${list}` : `it has no such service; it has ${list}`;
      return `sensor ${sensor_id} offers no characteristic ${characteristic_uuid} in service ${service_uuid}: ${offer}. It was not connected.`;
    },
    hint: "Choose the stream description that fits the sensor, or correct the description's UUIDs.",
  },
  'SENSOR_NOT_AS_DESCRIBED.no_memory': {
    message: ({ description_id }: { description_id: string }) =>
      `the stream description ${description_id} does not say how recordings are fetched from the sensor. Nothing was fetched.`,
    hint: 'Choose a description that does, or add "recordings" to this one.',
  },
  'SENSOR_RECORDING_DAMAGED.incomplete': {
    message: ({
      sensor_id,
      recording,
      have,
      bytes,
      tries,
    }: {
      sensor_id: string;
      recording: number;
      have: number;
      bytes: number;
      tries: number;
    }) =>
      `recording ${recording} of sensor ${sensor_id}: ${have} of ${bytes} bytes came, and no more after ${tries} tries. What came is kept; it remains in the sensor's memory as well.`,
    hint: 'Bring the sensor nearer and fetch again: it goes on where it stopped.',
  },
  'SENSOR_RECORDING_DAMAGED.not_cleared': {
    message: ({ sensor_id, recording, answer }: { sensor_id: string; recording: number; answer: number }) =>
      `sensor ${sensor_id} did not clear its recording ${recording} (answer ${answer}). Nothing was lost.`,
    hint: 'Fetch the list again; is a recording still running on the sensor?',
  },
  STREAM_SETTINGS_INVALID: {
    message: ({ field, found, known }: { field: string; found: number | null; known: readonly number[] }, say) =>
      `${field} is ${found}; the sensor's description allows ${say.list(known, 'or')}. Nothing was changed.`,
    hint: 'Choose one of the allowed values.',
  },
  'PACKET_UNREADABLE.short': unreadable(({ least }: { least: number }) => `at least ${least} bytes around the samples`),
  'PACKET_UNREADABLE.samples': unreadable(
    ({ most, around }: { most: number; around: number }) => `1 to ${most} samples in ${around} bytes of other fields`,
  ),
  'PACKET_UNREADABLE.checksum': unreadable(({ kind }: { kind: string }) => `a right ${kind} checksum`),
  'PACKET_UNREADABLE.standard': {
    message: ({ what, bytes, least }: { what: string; bytes: number; least: number }) =>
      `${what} of ${bytes} bytes: at least ${least} are needed. It was not used.`,
    hint: "Check the sensor's firmware.",
  },
  PACKET_LOG_UNREADABLE: {
    message: ({ source }: { source: string }) =>
      `${source}: its first record is not the header of a packet log. Nothing was read; the file is unchanged.`,
    hint: 'Check that this is a packet log of this project, and that it is whole.',
  },
  'STREAM_DESCRIPTION_INVALID.fields': {
    message: ({ source, faults }: { source: string; faults: readonly DescriptionRemark[] }, say) =>
      `stream description ${source}: ${remarksInWords(faults, '/', say)}. It was not loaded.`,
    hint: 'Correct the fields named; the shipped descriptions and the page "Describe a sensor" show the form.',
  },
  'STREAM_DESCRIPTION_INVALID.tried': {
    message: ({ faults }: { faults: readonly DescriptionRemark[] }, say) =>
      `the description has faults: ${remarksInWords(faults, 'whole', say)}.`,
    hint: 'Correct the fields named.',
  },
  'STREAM_DESCRIPTION_INVALID.unknown': {
    message: ({ id, known }: { id: string; known: readonly string[] }, say) =>
      `there is no stream description "${id}"; there are ${say.list(known)}.`,
    hint: 'Choose one of these, or add a description for the sensor.',
  },
  'STREAM_DESCRIPTION_INVALID.shipped': {
    message: ({ id }: { id: string }) =>
      `the stream description "${id}" comes with the program and cannot be removed. Nothing was changed.`,
    hint: 'Add one with the same identifier to put another in its place.',
  },
} as const satisfies FaultRoom;

function unreachable<V extends object>(what: (values: V) => string) {
  return {
    message: ({ sensor_id, ...values }: { sensor_id: string } & V) =>
      `sensor ${sensor_id} ${what(values as unknown as V)}. It is tried again.`,
    hint: 'Is it switched on, charged and within 10 m? Is it connected to another device?',
  };
}

function unreadable<V extends object>(expected: (values: V) => string) {
  return {
    message: ({ description, bytes, ...values }: { description: string; bytes: number } & V) =>
      `a packet of ${bytes} bytes from ${description}: expected ${expected(values as unknown as V)}. It was kept, but not used.`,
    hint: "Check that the stream description fits the sensor's firmware.",
  };
}

import type { FaultRoom } from '../../sentence.ts';

/** Live capture: what cannot be done now, and captures that are not there. */
export const captureFaults = {
  'CAPTURE_STATE.no_sensor': state('no sensor is paired', 'Search for sensors and give each a side first.'),
  'CAPTURE_STATE.not_paired_here': state(
    'this sensor is not paired with the radio of this machine',
    'Pair it on the page Live first.',
  ),
  'CAPTURE_STATE.none_held': state('no sensor is held to be described', 'Choose a sensor first.'),
  'CAPTURE_STATE.no_packets': state('the capture holds no packets', 'Choose another.'),
  'CAPTURE_STATE.none_runs': state('no capture runs', 'Connect the sensors first.'),
  'CAPTURE_STATE.not_marked': state('start was not pressed', 'Press start before stop.'),
  'CAPTURE_STATE.capture_runs': state('a capture runs', 'End it first.'),
  'CAPTURE_STATE.replay_runs': state('a replay runs', 'End it first.'),
  'CAPTURE_STATE.cannot_explore': state(
    'this way of reaching sensors cannot look inside one',
    'Use the radio of the machine that runs the program (Linux).',
  ),
  'CAPTURE_STATE.description_in_use': {
    message: ({ sensor }: { sensor: string }) =>
      `This cannot be done: the sensor ${sensor} is read by this description.`,
    hint: 'Forget the sensor first.',
  },
  'CAPTURE_STATE.nothing_to_play': {
    message: ({ session_id }: { session_id: number }) =>
      `session ${session_id} has no analysed repetition, so there is nothing to play.`,
    hint: 'Choose a session with results.',
  },
  'CAPTURE_STATE.still_running': {
    message: ({ capture_id }: { capture_id: string }) =>
      `The capture ${capture_id} is still running. Nothing was changed.`,
    hint: 'End the recording first.',
  },
  CAPTURE_NOT_FOUND: {
    message: ({ capture_id, sensor_id }: { capture_id: string; sensor_id: string | null }) =>
      `there is no capture ${capture_id}${sensor_id === null ? '' : ` of sensor ${sensor_id}`}.`,
    hint: 'The list of captures names those there are.',
  },
} as const satisfies FaultRoom;

function state(what: string, hint: string) {
  return { message: `This cannot be done: ${what}.`, hint };
}

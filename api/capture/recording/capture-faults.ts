import { FaultError, fault } from '../../../shared/fault.ts';

export type WrongState =
  | 'no_sensor'
  | 'not_paired_here'
  | 'none_held'
  | 'no_packets'
  | 'none_runs'
  | 'not_marked'
  | 'capture_runs'
  | 'replay_runs';

/** What cannot be done now. */
export function wrongState(why: WrongState): FaultError {
  return new FaultError(fault(`CAPTURE_STATE.${why}`, {}));
}

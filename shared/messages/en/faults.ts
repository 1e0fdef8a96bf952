import type { FaultValuesOf } from '../sentence.ts';
import { accessFaults } from './faults/access.ts';
import { analysisFaults } from './faults/analysis.ts';
import { clockFaults } from './faults/clocks.ts';
import { coachFaults } from './faults/coach.ts';
import { commandLineFaults } from './faults/command-line.ts';
import { contactFaults } from './faults/contacts.ts';
import { httpFaults } from './faults/http.ts';
import { measuringFaults } from './faults/measuring.ts';
import { optionFaults } from './faults/options.ts';
import { recordingFaults } from './faults/recordings.ts';
import { requestFaults } from './faults/requests.ts';
import { serverFaults } from './faults/server.ts';
import { storeFaults } from './faults/store.ts';
import { timingFaults } from './faults/timing.ts';
import { agreementFaults } from './faults/agreement.ts';
import { exportFaults } from './faults/exports.ts';
import { sensorFaults } from './faults/sensors.ts';
import { captureFaults } from './faults/captures.ts';
import { fileFaults } from './faults/files.ts';
import { viewFaults } from './faults/view.ts';
import { archiveFaults } from './faults/archive.ts';

/** Every fault's sentences in English, the language that the others are compared with. One line a part. */
export const FAULTS_EN = {
  ...accessFaults,
  ...analysisFaults,
  ...clockFaults,
  ...coachFaults,
  ...commandLineFaults,
  ...contactFaults,
  ...httpFaults,
  ...measuringFaults,
  ...optionFaults,
  ...recordingFaults,
  ...requestFaults,
  ...serverFaults,
  ...storeFaults,
  ...timingFaults,
  ...agreementFaults,
  ...exportFaults,
  ...sensorFaults,
  ...captureFaults,
  ...fileFaults,
  ...viewFaults,
  ...archiveFaults,
};

export type FaultKey = keyof typeof FAULTS_EN;
export type FaultValues<Key extends FaultKey> = FaultValuesOf<(typeof FAULTS_EN)[Key]>;

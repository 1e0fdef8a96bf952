import type { FAULTS_EN } from '../en/faults.ts';
import type { FaultsLike } from '../sentence.ts';
import { accessFaults_de } from './faults/access.ts';
import { archiveFaults_de } from './faults/archive.ts';
import { analysisFaults_de } from './faults/analysis.ts';
import { clockFaults_de } from './faults/clocks.ts';
import { coachFaults_de } from './faults/coach.ts';
import { commandLineFaults_de } from './faults/command-line.ts';
import { contactFaults_de } from './faults/contacts.ts';
import { httpFaults_de } from './faults/http.ts';
import { measuringFaults_de } from './faults/measuring.ts';
import { optionFaults_de } from './faults/options.ts';
import { recordingFaults_de } from './faults/recordings.ts';
import { requestFaults_de } from './faults/requests.ts';
import { serverFaults_de } from './faults/server.ts';
import { storeFaults_de } from './faults/store.ts';
import { timingFaults_de } from './faults/timing.ts';
import { agreementFaults_de } from './faults/agreement.ts';
import { exportFaults_de } from './faults/exports.ts';
import { sensorFaults_de } from './faults/sensors.ts';
import { captureFaults_de } from './faults/captures.ts';
import { fileFaults_de } from './faults/files.ts';
import { viewFaults_de } from './faults/view.ts';

/** Every fault's sentences in German. One line a part. */
export const FAULTS_DE: FaultsLike<typeof FAULTS_EN> = {
  ...accessFaults_de,
  ...analysisFaults_de,
  ...clockFaults_de,
  ...coachFaults_de,
  ...commandLineFaults_de,
  ...contactFaults_de,
  ...httpFaults_de,
  ...measuringFaults_de,
  ...optionFaults_de,
  ...recordingFaults_de,
  ...requestFaults_de,
  ...serverFaults_de,
  ...storeFaults_de,
  ...timingFaults_de,
  ...agreementFaults_de,
  ...exportFaults_de,
  ...sensorFaults_de,
  ...captureFaults_de,
  ...fileFaults_de,
  ...viewFaults_de,
  ...archiveFaults_de,
};

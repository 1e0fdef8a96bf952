import type { FAULTS_EN } from '../en/faults.ts';
import type { FaultsLike } from '../sentence.ts';
import { accessFaults_de } from './faults/access.ts';
import { analysisFaults_de } from './faults/analysis.ts';
import { clockFaults_de } from './faults/clocks.ts';
import { httpFaults_de } from './faults/http.ts';
import { optionFaults_de } from './faults/options.ts';
import { recordingFaults_de } from './faults/recordings.ts';
import { serverFaults_de } from './faults/server.ts';
import { viewFaults_de } from './faults/view.ts';

/** Every fault's sentences in German. One line a part. */
export const FAULTS_DE: FaultsLike<typeof FAULTS_EN> = {
  ...accessFaults_de,
  ...analysisFaults_de,
  ...clockFaults_de,
  ...httpFaults_de,
  ...optionFaults_de,
  ...recordingFaults_de,
  ...serverFaults_de,
  ...viewFaults_de,
};

import { tellAll } from '../../shared/messages/tell-all.ts';
import type { AgreementStudy } from '../../shared/schemas/agreement.ts';
import { pairsCsv, quantitiesCsv, recordingsCsv } from '../agreement/study-csv.ts';
import { studyFigure } from '../agreement/study-figure.ts';
import { studyPdf } from '../agreement/study-pdf.ts';
import type { ExportSink } from '../export/sink.ts';
import { FIGURE_FORMS, figureFile } from '../figures/figure-files.ts';
import { FILE_SPEECH, FILE_WORDS } from './speech.ts';

/** Writes a study with everything it rests on: tables, the study as JSON, the report, figures with their numbers. */
export async function writeStudy(
  sink: ExportSink,
  study: AgreementStudy,
  title = FILE_WORDS.coach.agreement('study_title'),
): Promise<void> {
  await sink.add('quantities.csv', [quantitiesCsv(study)]);
  await sink.add('recordings.csv', [recordingsCsv(study)]);
  await sink.add('pairs.csv', [pairsCsv(study)]);
  await sink.add('study.json', [`${JSON.stringify(tellAll(study, FILE_SPEECH), null, 1)}\n`]);
  await sink.add('report.pdf', [await studyPdf(study, title, FILE_WORDS)]);
  for (const { quantity } of study.quantities) {
    const figure = studyFigure(study, quantity, FILE_WORDS)!;
    const name = `figures/${quantity.replace(/[^a-z0-9]+/gi, '-')}`;
    for (const form of FIGURE_FORMS) await sink.add(`${name}.${form}`, [(await figureFile(figure, form)).body]);
  }
}

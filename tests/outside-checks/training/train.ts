/**
 * Makes the models that ship: `npm run train`. Learns from every recording on force plates and from the generated runs, judges by leaving
 * one runner out after the other, writes dsp/learned/models and prints what it reached. The same recordings and sources give the same bytes.
 */
import { createHash } from 'node:crypto';
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { encodeModel } from '../../../dsp/learned/model-file.ts';
import { recordingsFolders } from '../../helpers/recordings.ts';
import { fitModel, thinned, withIntervals } from './fit-model.ts';
import { foldFolder, leftOut, writeFolds } from './fold-models.ts';
import { generatedExamples } from './generated-examples.ts';
import { leftOutReport } from './left-out-report.ts';
import { KINDS, kindName, plateExamples } from './training-cases.ts';

const NOTICE =
  'Learned from: Fukuchi RK, Fukuchi CA, Duarte M (2017) PeerJ 5:e3298, data doi 10.6084/m9.figshare.4543435, CC BY 4.0 (changed: ' +
  'segment motion from markers, see README.md beside); Davis JJ (2022), MIT; Dorn TW, Schache AG, Pandy MG (2012) J Exp Biol 215:1944, MIT; ' +
  'and runs of the generators of this project.';

const MODELS = fileURLToPath(new URL('../../../dsp/learned/models', import.meta.url));

const folders = recordingsFolders();
if (!folders) {
  console.error('No recordings: set CINDERLANE_DATA to their folders.');
  process.exit(1);
}
const examples = await plateExamples(folders);
const generated = generatedExamples();
const cache = foldFolder(folders);
mkdirSync(cache, { recursive: true });
const version = createHash('sha256');
for (const kind of KINDS) {
  const name = kindName(kind);
  const folds = leftOut(examples, generated, kind);
  writeFolds(cache, name, folds);
  const learned = [...thinned(examples[name]), ...(generated[name] ?? [])];
  const model = withIntervals(fitModel(learned, kind.mounting, kind.channels), folds.answers);
  const text = `${JSON.stringify(encodeModel(model, NOTICE), null, 1)}\n`;
  version.update(text);
  writeFileSync(join(MODELS, `${name}.json`), text);
  console.log(`\n${name}: ${learned.length} contacts, ${(text.length / 1000).toFixed(0)} kB`);
  console.log(leftOutReport(folds.answers, model));
}
writeFileSync(join(cache, 'complete'), '');
writeFileSync(join(MODELS, 'trained.json'), `${JSON.stringify({ version: version.digest('hex').slice(0, 12) })}\n`);

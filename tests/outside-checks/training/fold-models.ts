/**
 * The models that judge: for every runner one set that was learned from all others. They take minutes, so they are kept in a
 * folder of the machine for temporary files, under a name that changes with anything they depend on.
 */
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { ContactModel, ContactModels } from '../../../dsp/learned/contact-model.ts';
import { decodeModel, encodeModel } from '../../../dsp/learned/model-file.ts';
import { leaveOneOut, type LeftOut, withIntervals } from './fit-model.ts';
import { generatedExamples } from './generated-examples.ts';
import type { Example } from './lessons.ts';
import { type ExamplesByKind, KINDS, kindName, plateExamples } from './training-cases.ts';

const ROOT = fileURLToPath(new URL('../../..', import.meta.url));
/** What a fit depends on, beside the recordings. */
const SOURCES = ['dsp/events', 'dsp/learned', 'dsp/settings', 'dsp/signals', 'seeds', 'tests/outside-checks/training'];

/** Models that never saw a runner, by runner. */
export type FoldModels = Map<string, ContactModels>;

export async function foldModels(folders: readonly string[]): Promise<FoldModels> {
  const folder = join(tmpdir(), `cinderlane-fold-models-${keyOf(folders)}`);
  if (!existsSync(join(folder, 'complete'))) await makeFolds(folders, folder);
  const byRunner = new Map<string, ContactModel[]>();
  for (const file of readdirSync(folder).filter((name) => name.endsWith('.json'))) {
    const [runner] = file.split('.');
    const model = decodeModel(JSON.parse(readFileSync(join(folder, file), 'utf8')));
    byRunner.set(runner, (byRunner.get(runner) ?? []).concat(model));
  }
  return new Map([...byRunner].map(([runner, models]) => [runner, setOf(`without ${runner}`, models)]));
}

function setOf(version: string, models: readonly ContactModel[]): ContactModels {
  return {
    version,
    of: (mounting, channels) =>
      models.find((model) => model.mounting === mounting && model.channels === channels) ?? null,
  };
}

async function makeFolds(folders: readonly string[], folder: string): Promise<void> {
  const examples = await plateExamples(folders);
  const generated = generatedExamples();
  mkdirSync(folder, { recursive: true });
  for (const kind of KINDS) {
    const name = kindName(kind);
    writeFolds(folder, name, leftOut(examples, generated, kind));
  }
  writeFileSync(join(folder, 'complete'), '');
}

/** Left-out answers and the fold's model by runner. */
export interface Folds {
  answers: LeftOut[];
  models: Map<string, ContactModel>;
}

export function leftOut(examples: ExamplesByKind, generated: ExamplesByKind, kind: (typeof KINDS)[number]): Folds {
  const name = kindName(kind);
  const models = new Map<string, ContactModel>();
  const own: Example[] = examples[name] ?? [];
  const answers = leaveOneOut(own, generated[name] ?? [], kind.mounting, kind.channels, (runner, model) =>
    models.set(runner, model),
  );
  return { answers, models };
}

/** Each fold's intervals come from the errors of all other runners. */
export function writeFolds(folder: string, kind: string, { answers, models }: Folds): void {
  for (const [runner, model] of models) {
    const others = answers.filter(({ example }) => example.runner !== runner);
    const file = encodeModel(withIntervals(model, others), `learned without ${runner}`);
    writeFileSync(join(folder, `${runner}.${kind}.json`), JSON.stringify(file));
  }
}

/** Where fold models of these recordings and sources lie. */
export function foldFolder(folders: readonly string[]): string {
  return join(tmpdir(), `cinderlane-fold-models-${keyOf(folders)}`);
}

function keyOf(folders: readonly string[]): string {
  const hash = createHash('sha256');
  for (const source of SOURCES) {
    for (const file of readdirSync(join(ROOT, source), { recursive: true, encoding: 'utf8' }).sort()) {
      if (file.endsWith('.ts')) hash.update(file).update(readFileSync(join(ROOT, source, file)));
    }
  }
  for (const folder of folders) {
    for (const file of readdirSync(folder, { recursive: true, encoding: 'utf8' }).sort()) {
      hash.update(`${file} ${statSync(join(folder, file)).size}`);
    }
  }
  return hash.digest('hex').slice(0, 16);
}

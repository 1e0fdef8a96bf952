import { Ajv } from 'ajv';
import { FaultError } from '../../../shared/fault.ts';
import {
  type RawChannel,
  StreamDescription,
  type StreamDescription as StreamDescriptionType,
} from '../../../shared/schemas/stream-description.ts';
import { NUMBER_CODECS } from '../packets/number-types.ts';

const checkSchema = new Ajv({ allErrors: true, strict: false }).compile(StreamDescription);

/**
 * Reads and checks a stream description.
 * @param source file name or other words for where it came from; goes into the error
 * @param text JSON
 * @throws FaultError STREAM_DESCRIPTION_INVALID naming every field that is wrong
 */
export function readStreamDescription(source: string, text: string): StreamDescriptionType {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch (error) {
    throw invalid(source, '', [`is not JSON: ${(error as Error).message}`]);
  }
  if (!checkSchema(value)) {
    const problems = (checkSchema.errors ?? []).map((error) => {
      const allowed = 'allowedValues' in error.params ? ` (${error.params.allowedValues.join(', ')})` : '';
      const extra = 'additionalProperty' in error.params ? ` ("${error.params.additionalProperty}")` : '';
      return `${error.instancePath || '/'} ${error.message}${allowed}${extra}`;
    });
    throw invalid(source, checkSchema.errors?.[0]?.instancePath ?? '', problems);
  }
  const description = value as StreamDescriptionType;
  const problems = [...headerProblems(description), ...sampleProblems(description), ...axisProblems(description)];
  if (problems.length > 0) throw invalid(source, '', problems);
  return description;
}

function headerProblems(description: StreamDescriptionType): string[] {
  const { header, samples, max_samples } = description.packet;
  const problems: string[] = [];
  const count = (name: string) => header.filter((entry) => entry.field === name).length;
  if (count('counter') !== 1)
    problems.push('/packet/header must have exactly one counter: losses cannot be told without it');
  if ((count('time_stamp') === 1) !== (description.time_stamp !== null) || count('time_stamp') > 1) {
    problems.push('/packet/header must have one time_stamp where /time_stamp is given, and none where it is null');
  }
  if ((count('sample_count') === 1) !== (samples === 'sample_count')) {
    problems.push('/packet/header must have one sample_count exactly when /packet/samples is "sample_count"');
  }
  for (const entry of header) {
    if (entry.field !== 'skip' && !entry.type.startsWith('uint')) {
      problems.push(`/packet/header ${entry.field} must be an unsigned integer, not ${entry.type}`);
    }
  }
  if (typeof samples === 'number' && samples > max_samples) {
    problems.push(`/packet/samples is ${samples}, more than /packet/max_samples ${max_samples}`);
  }
  return problems;
}

function sampleProblems(description: StreamDescriptionType): string[] {
  const problems: string[] = [];
  const channels = description.packet.sample.map((entry) => entry.channel).filter((name) => name !== 'skip');
  if (new Set(channels).size !== channels.length) problems.push('/packet/sample names a channel twice');
  const need = (prefix: 'acc' | 'gyr', wanted: boolean) => {
    const found = ['x', 'y', 'z'].filter((axis) => channels.includes(`${prefix}_${axis}` as RawChannel)).length;
    if (found !== (wanted ? 3 : 0)) {
      problems.push(
        `/packet/sample has ${found} of the 3 ${prefix} channels; /${prefix} ${wanted ? 'needs all' : 'is null'}`,
      );
    }
  };
  need('acc', true);
  need('gyr', description.gyr !== null);
  for (const entry of description.packet.sample) {
    if (entry.delta_type === undefined) continue;
    if (entry.delta_type.startsWith('float') || entry.delta_type.startsWith('uint') || entry.type.startsWith('float')) {
      problems.push(`/packet/sample ${entry.channel}: differences must be signed integers of an integer channel`);
    } else if (NUMBER_CODECS[entry.delta_type].bytes > NUMBER_CODECS[entry.type].bytes) {
      problems.push(`/packet/sample ${entry.channel}: delta_type ${entry.delta_type} is wider than ${entry.type}`);
    }
  }
  return problems;
}

function axisProblems(description: StreamDescriptionType): string[] {
  const problems: string[] = [];
  for (const name of ['acc', 'gyr'] as const) {
    const quantity = description[name];
    if (quantity === null) continue;
    if (determinant(quantity.axes) !== 1) {
      problems.push(
        `/${name}/axes must turn the axes (each of x, y, z once, right-handed); a mirror image is not allowed`,
      );
    }
    const scales = quantity.ranges.map((range) => range.full_scale);
    if (new Set(scales).size !== scales.length) problems.push(`/${name}/ranges has a full_scale twice`);
  }
  const rates = description.rates.map((rate) => rate.rate_hz);
  if (new Set(rates).size !== rates.length) problems.push('/rates has a rate_hz twice');
  return problems;
}

/** Of the signed permutation matrix; 1 for a rotation, -1 for a mirror image, 0 when an axis is used twice. */
function determinant(axes: { x: string; y: string; z: string }): number {
  const rows = [axes.x, axes.y, axes.z].map((axis) =>
    ['x', 'y', 'z'].map((name) => (axis[1] === name ? (axis[0] === '-' ? -1 : 1) : 0)),
  );
  const [a, b, c] = rows;
  return a[0] * (b[1] * c[2] - b[2] * c[1]) - a[1] * (b[0] * c[2] - b[2] * c[0]) + a[2] * (b[0] * c[1] - b[1] * c[0]);
}

function invalid(source: string, field: string, problems: string[]): FaultError {
  return new FaultError({
    code: 'STREAM_DESCRIPTION_INVALID',
    message: `stream description ${source}: ${problems.join('; ')}. It was not loaded.`,
    where: { source, field },
    hint: 'Correct the fields named; shared/schemas/stream-description.ts and the two shipped descriptions show the form.',
  });
}

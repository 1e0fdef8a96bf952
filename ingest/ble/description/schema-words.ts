import { Ajv, type ErrorObject } from 'ajv';
import { StreamDescription } from '../../../shared/schemas/stream-description.ts';

const validate = new Ajv({ allErrors: true, strict: false, verbose: true }).compile(StreamDescription);

/** One thing about a description: where, and in words. */
export interface DescriptionRemark {
  /** Place in the JSON, as a pointer: /packet/header/0/type. Empty for the whole. */
  field: string;
  words: string;
}

/** What the schema finds wrong, one remark a place, without the schema's own expressions. */
export function schemaFaults(value: unknown): DescriptionRemark[] {
  if (validate(value)) return [];
  const faults = new Map<string, string>();
  for (const error of validate.errors ?? []) {
    const { instancePath, keyword } = error;
    // Of a choice, the closest words say enough.
    if (keyword === 'anyOf' && faults.has(instancePath)) continue;
    const field =
      keyword === 'additionalProperties' ? `${instancePath}/${error.params.additionalProperty}` : instancePath;
    const words = wordsOf(error);
    if (keyword === 'required' || !faults.has(field)) faults.set(field, join(faults.get(field), words));
  }
  return [...faults].map(([field, words]) => ({ field, words }));
}

function join(before: string | undefined, words: string): string {
  return before === undefined ? words : `${before}; ${words}`;
}

function wordsOf(error: ErrorObject): string {
  const { keyword, params, parentSchema, data } = error;
  const found = typeof data === 'string' || typeof data === 'number' ? ` (found: ${JSON.stringify(data)})` : '';
  switch (keyword) {
    case 'required':
      return `"${params.missingProperty}" is missing`;
    case 'additionalProperties':
      return 'there is no such field; is it misspelt, or in the wrong place?';
    case 'enum':
      return `must be one of ${params.allowedValues.join(', ')}${found}`;
    case 'const':
      return `must be "${params.allowedValue}"${found}`;
    case 'pattern':
      return `${PATTERN_WORDS[params.pattern] ?? parentSchema?.description ?? 'does not have the right form'}${found}`;
    case 'type':
      return `must be ${TYPE_WORDS[params.type] ?? params.type}${found}`;
    case 'minItems':
      return `needs at least ${params.limit} ${params.limit === 1 ? 'entry' : 'entries'}`;
    case 'maxItems':
      return `may have at most ${params.limit} entries`;
    case 'minLength':
      return 'must not be empty';
    case 'maxLength':
      return `may have at most ${params.limit} characters`;
    case 'minimum':
      return `must be ${params.limit} or more${found}`;
    case 'maximum':
      return `must be ${params.limit} or less${found}`;
    case 'exclusiveMinimum':
      return `must be more than ${params.limit}${found}`;
    case 'anyOf':
      return `does not have one of the forms allowed here${found}`;
    default:
      return `${error.message ?? 'is wrong'}${found}`;
  }
}

const TYPE_WORDS: Record<string, string> = {
  object: 'a group of fields in { }',
  array: 'a list in [ ]',
  string: 'a text in quotes',
  number: 'a number',
  integer: 'a whole number',
  boolean: 'true or false',
  null: 'null',
};

const PATTERN_WORDS: Record<string, string> = {
  '^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$':
    'must be a UUID of 32 hexadecimal digits in lower case, in groups of 8-4-4-4-12; a 16-bit number 180f is 0000180f-0000-1000-8000-00805f9b34fb',
  '^([0-9a-f]{2})( [0-9a-f]{2})*$':
    'must be bytes of two hexadecimal digits in lower case with one space between, such as "01 e8 03"',
  '^[a-z0-9][a-z0-9-]{0,39}$': 'must be a short name of lower-case letters, digits and hyphens, at most 40',
  '^[0-9]{6}$': 'must be six digits',
};

import { Ajv, type ErrorObject } from 'ajv';
import { type Notice, notice } from '../../../shared/notice.ts';
import type { DescriptionRemark } from '../../../shared/description-remark.ts';
import { StreamDescription } from '../../../shared/schemas/stream-description.ts';

const validate = new Ajv({ allErrors: true, strict: false, verbose: true }).compile(StreamDescription);
/** What stands in a place is repeated up to so many characters. */
const MOST_REPEATED = 200;

/** What the schema finds wrong, one remark a place, without the schema's own expressions. */
export function schemaFaults(value: unknown): DescriptionRemark[] {
  if (validate(value)) return [];
  const faults = new Map<string, Notice>();
  for (const error of validate.errors ?? []) {
    const { instancePath, keyword } = error;
    // Of a choice, the closest words say enough.
    if (keyword === 'anyOf' && faults.has(instancePath)) continue;
    const field =
      keyword === 'additionalProperties' ? `${instancePath}/${error.params.additionalProperty}` : instancePath;
    const before = faults.get(field);
    const words = wordsOf(error);
    if (before === undefined) faults.set(field, words);
    else if (keyword === 'required') faults.set(field, notice('remark_and', { first: before, second: words }));
  }
  return [...faults].map(([field, words]) => ({ field, words }));
}

function wordsOf({ keyword, params, data }: ErrorObject): Notice {
  const found = foundText(data);
  switch (keyword) {
    case 'required':
      return notice('remark_missing', { field: params.missingProperty });
    case 'additionalProperties':
      return notice('remark_no_such_field');
    case 'enum':
      return notice('remark_one_of', { allowed: params.allowedValues, found });
    case 'const':
      return notice('remark_one_of', { allowed: [params.allowedValue], found });
    case 'pattern':
      return wordsOfPattern(params.pattern, found);
    case 'type':
      return notice('remark_type', { type: params.type, found });
    case 'minItems':
      return notice('remark_least_entries', { least: params.limit });
    case 'maxItems':
      return notice('remark_most_entries', { most: params.limit });
    case 'minLength':
      return notice('remark_empty');
    case 'maxLength':
      return notice('remark_most_characters', { most: params.limit });
    case 'minimum':
      return notice('remark_least', { least: params.limit, found });
    case 'maximum':
      return notice('remark_most', { most: params.limit, found });
    case 'exclusiveMinimum':
      return notice('remark_above', { above: params.limit, found });
    default:
      return notice('remark_form', { found });
  }
}

function foundText(data: unknown): string | null {
  if (typeof data !== 'string' && typeof data !== 'number') return null;
  const text = JSON.stringify(data);
  return text.length > MOST_REPEATED ? null : text;
}

/** The patterns of the schema, each in words. */
function wordsOfPattern(pattern: string, found: string | null): Notice {
  if (pattern.startsWith('^[0-9a-f]{8}-')) return notice('remark_uuid', { found });
  if (pattern.startsWith('^([0-9a-f]{2})')) return notice('remark_bytes', { found });
  if (pattern.startsWith('^[a-z0-9]')) return notice('remark_short_name', { found });
  if (pattern === '^[0-9]{6}$') return notice('remark_six_digits', { found });
  return notice('remark_form', { found });
}

import { type TBoolean, type TEnum, type TNull, type TNumber, type TSchema, type TUnion, Type } from 'typebox';
import {
  CONTACT_FIELDS,
  CONTACT_MARKS,
  type ContactField,
  type ContactMark,
  type ContactQuantity,
  UNCERTAIN_QUANTITIES,
  type UncertainQuantity,
} from '../fields.ts';
import { Nullable, ReasonText } from './common.ts';

type Mark = keyof typeof CONTACT_MARKS;
type Field = ContactField | ContactMark;

type ValueSchema<Of> = Of extends { words: readonly (infer Word extends string)[] }
  ? TEnum<Word[]>
  : Of extends { kind: 'flag' }
    ? TBoolean
    : TNumber;
type Known<Of, Schema extends TSchema> = Of extends { required: true } ? Schema : TUnion<[Schema, TNull]>;

type ContactProperties = {
  [Name in Mark]: Known<(typeof CONTACT_MARKS)[Name], ValueSchema<(typeof CONTACT_MARKS)[Name]>>;
} & { [Name in ContactQuantity]: Known<(typeof CONTACT_FIELDS)[Name], TNumber> } & {
  [Name in UncertainQuantity as `${Name}_u`]: TUnion<[TNumber, TNull]>;
};

function valueSchema({ kind, unit, definition, words }: Field & { words?: readonly string[] }): TSchema {
  const description = unit === '' || unit === '1' ? definition : `${definition} Unit: ${unit}.`;
  if (words) return Type.Enum([...words], { description });
  if (kind === 'flag') return Type.Boolean({ description });
  return kind === 'count' ? Type.Integer({ description }) : Type.Number({ description });
}

function fieldSchema(field: Field): TSchema {
  return field.required ? valueSchema(field) : Nullable(valueSchema(field));
}

/** Schemas of every field of a contact, made from the dictionary: what `Contact` of shared/contact.ts is as a type. */
const properties = Object.fromEntries([
  ...Object.entries<Field>({ ...CONTACT_MARKS, ...CONTACT_FIELDS }).map(([name, field]) => [name, fieldSchema(field)]),
  ...UNCERTAIN_QUANTITIES.map((name) => {
    const { unit } = CONTACT_FIELDS[name];
    const description = `Standard uncertainty of ${name}${unit === '1' ? '' : `, ${unit}`}.`;
    return [`${name}_u`, Nullable(Type.Number({ description, minimum: 0 }))];
  }),
]) as ContactProperties;

export const ContactSchema = Type.Object(
  {
    ...properties,
    reasons: Type.Record(Type.String(), ReasonText, {
      description: 'Field name -> plain words why it is null or why its uncertainty is wide.',
    }),
  },
  { description: 'One ground contact. Null: not measurable.' },
);

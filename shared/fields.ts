/**
 * Every measured field, defined once: one spelling for CSV, SQL, JSON and TypeScript, with unit, definition and source.
 * The type and schema of a contact, the columns of the store, the files, the exports' data dictionary and the lists of
 * the view are made from these dictionaries.
 */
import { ADDED_FIELDS, LATE_UNCERTAINTIES } from './fields/added.ts';
import type { ContactField, ContactMark } from './fields/field.ts';
import { FORCE_FIELDS } from './fields/force.ts';
import { CONTACT_MARKS } from './fields/marks.ts';
import { SHAPE_FIELDS } from './fields/shape.ts';
import { STEP_FIELDS } from './fields/steps.ts';
import { STRIDE_FIELDS } from './fields/strides.ts';

export type { ContactField, ContactMark, FieldDefinition } from './fields/field.ts';
export { CONTACT_MARKS } from './fields/marks.ts';
export { REPETITION_FIELDS } from './fields/of-repetition.ts';
export { STEP_FIELDS } from './fields/steps.ts';

/** Quantities of one contact, in the order of columns. */
export const CONTACT_FIELDS = {
  ...STEP_FIELDS,
  ...STRIDE_FIELDS,
  ...SHAPE_FIELDS,
  ...FORCE_FIELDS,
  ...ADDED_FIELDS,
} as const;
export type ContactQuantity = keyof typeof CONTACT_FIELDS;

type Where<Key extends keyof ContactField, Value> = {
  [Name in ContactQuantity]: (typeof CONTACT_FIELDS)[Name] extends { [K in Key]: Value } ? Name : never;
}[ContactQuantity];

function namesWhere<Name extends ContactQuantity>(has: (field: ContactField) => boolean): readonly Name[] {
  return (Object.entries(CONTACT_FIELDS) as [Name, ContactField][]).flatMap(([name, field]) =>
    has(field) ? [name] : [],
  );
}

/** All quantities of a contact, in order. */
export const CONTACT_QUANTITIES = namesWhere<ContactQuantity>(() => true);

/** Quantities that have a standard uncertainty, `<name>_u`. */
export type UncertainQuantity = Where<'u', true>;
export const UNCERTAIN_QUANTITIES = namesWhere<UncertainQuantity>(({ u }) => u);

/** Quantities that a repetition's summary averages: all but instants and places. */
export const SUMMARY_QUANTITIES = namesWhere<Where<'kind', 'quantity'>>(({ kind }) => kind === 'quantity');

/** Quantities offered as a stride profile, each with what is normal step by step. */
export type ProfileQuantity = Where<'shown', 'profile'>;
export const PROFILE_QUANTITIES = namesWhere<ProfileQuantity>(({ shown }) => shown === 'profile');

/** Quantities of a step whose means stand in repetitions.csv, in its order. */
export type StepQuantity = Where<'shown', 'profile' | 'step'>;
export const STEP_QUANTITIES = namesWhere<StepQuantity>(({ shown }) => shown !== undefined);

/** Strides, angles, swing and force: what else of a contact is averaged over a repetition, and shown on request. */
export const FURTHER_QUANTITIES = SUMMARY_QUANTITIES.filter(
  (name) => !(STEP_QUANTITIES as readonly string[]).includes(name),
);

/** Quantities that need a gyroscope, on the foot, on the shank or on either. */
export const TURNED_QUANTITIES = namesWhere<ContactQuantity>(({ needs }) => needs !== undefined);

/** Quantities whose mean stands beside every analysis, and those of them with its uncertainty. */
export type FigureQuantity = Where<'figure', 'with uncertainty' | 'alone'>;
export type UncertainFigure = Where<'figure', 'with uncertainty'>;
export const FIGURE_QUANTITIES = namesWhere<FigureQuantity>(({ figure }) => figure !== undefined);
export const UNCERTAIN_FIGURES = namesWhere<UncertainFigure>(({ figure }) => figure === 'with uncertainty');

/** A quantity's standard uncertainty; null where it has none or it is not known. */
export function uncertaintyOf(contact: object, quantity: ContactQuantity): number | null {
  return (contact as Record<string, number | null | undefined>)[`${quantity}_u`] ?? null;
}

function withUncertainty(name: ContactQuantity): string[] {
  return CONTACT_FIELDS[name].u ? [name, `${name}_u`] : [name];
}

/** Why the quantity or its uncertainty is missing or wide, in words. */
function reasonColumn(name: string): string {
  return `${name}_reason`;
}

function isAdded(column: string): boolean {
  return column.replace(/_u$/, '') in ADDED_FIELDS || Object.values(LATE_UNCERTAINTIES).flat().includes(column);
}

/** Columns that steps.csv began with: their order is a contract. */
const FIRST_COLUMNS: readonly string[] = [
  ...['repetition', 'step', 'side'],
  ...Object.keys(STEP_FIELDS),
  ...['phase', 'confidence'],
  ...Object.keys(STEP_FIELDS).map((name) => `${name}_u`),
];

/** Every field of a contact that is one value, an uncertainty behind its quantity; the columns of the store. */
export const CONTACT_COLUMNS: readonly string[] = [
  ...Object.keys(CONTACT_MARKS),
  ...CONTACT_QUANTITIES.flatMap(withUncertainty),
];

/** Columns of steps.csv, in order; later versions only append: new fields come last. */
export const STEPS_CSV_COLUMNS: readonly string[] = [
  ...FIRST_COLUMNS,
  ...CONTACT_COLUMNS.filter((name) => !FIRST_COLUMNS.includes(name) && !isAdded(name)),
  ...CONTACT_QUANTITIES.filter((name) => !isAdded(name)).map(reasonColumn),
  ...CONTACT_QUANTITIES.filter(isAdded).flatMap((name) => [
    ...withUncertainty(name),
    reasonColumn(name),
    ...(LATE_UNCERTAINTIES[name] ?? []),
  ]),
];

const BY_NAME = new Map<string, ContactField | ContactMark>(Object.entries({ ...CONTACT_FIELDS, ...CONTACT_MARKS }));

/** The definition of a column of a contact; an uncertainty has that of its quantity. */
export function contactColumn(name: string): ContactField | ContactMark | undefined {
  return BY_NAME.get(name) ?? BY_NAME.get(name.replace(/_u$/, ''));
}

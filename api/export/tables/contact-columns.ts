import type { ContactQuantity } from '../../../shared/analysis.ts';
import { CONTACT_FIELDS } from '../../../shared/fields.ts';
import { PHASES, SIDES } from '../../../shared/words.ts';
import { fileDecimals } from '../../measuring/csv-number.ts';
import type { ExportColumn } from './column.ts';

const OWN = 'own definition';

/**
 * Columns of the contacts table: each quantity of shared/fields.ts with its standard uncertainty behind it.
 * @param quantities names of the quantities wanted; touchdown and toe-off are always there
 */
export function contactColumns(quantities: readonly string[] | undefined): ExportColumn[] {
  const wanted = (name: string): boolean =>
    !quantities || name === 'touchdown_s' || name === 'toe_off_s' || quantities.includes(name);
  const measured = Object.entries(CONTACT_FIELDS)
    .filter(([name]) => wanted(name))
    .flatMap(([name, field]): ExportColumn[] => {
      const { unit, definition, source } = field;
      const decimals = fileDecimals(name);
      const column: ExportColumn = { name, type: 'number', unit, definition, source, decimals };
      if (name === 'touchdown_s') column.required = true;
      if (!hasUncertainty(name as ContactQuantity)) return [column];
      return [
        column,
        {
          name: `${name}_u`,
          type: 'number',
          unit,
          minimum: 0,
          decimals,
          definition: `Standard uncertainty of ${name}: one standard deviation of its error.`,
          source: 'JCGM 100:2008 (GUM)',
        },
      ];
    });
  return [
    key('repetition_id', 'Repetition the contact belongs to.'),
    {
      name: 'step',
      type: 'integer',
      unit: '1',
      required: true,
      minimum: 1,
      definition: 'Number of the contact within its repetition, over both feet in time order.',
      source: OWN,
    },
    {
      name: 'side',
      type: 'string',
      unit: '',
      required: true,
      enum: SIDES,
      definition: "The foot on the ground; 'unknown' where the sensor's side was not given.",
      source: OWN,
    },
    ...measured,
    {
      name: 'phase',
      type: 'string',
      unit: '',
      enum: PHASES,
      definition: 'Phase of the repetition; empty where it cannot be told.',
      source: 'common practice',
    },
    {
      name: 'confidence',
      type: 'number',
      unit: '1',
      required: true,
      minimum: 0,
      maximum: 1,
      decimals: 4,
      definition: 'How sure the detection is that this is a running contact with these instants.',
      source: OWN,
    },
    {
      name: 'assumes_symmetry',
      type: 'boolean',
      unit: '',
      required: true,
      definition: 'True where flight and step values rest on one foot and take left and right for alike.',
      source: OWN,
    },
    {
      name: 'spatial_source',
      type: 'string',
      unit: '',
      enum: ['timing', 'belt', 'foot_sensor', 'combined'],
      definition: 'What step length and speed come from.',
      source: OWN,
    },
    ...(['touchdown_raw_s', 'toe_off_raw_s'] as const).map(
      (name): ExportColumn => ({
        name,
        type: 'number',
        unit: 's',
        decimals: 6,
        definition: 'The instant before any correction for known bias.',
        source: OWN,
      }),
    ),
  ];
}

function hasUncertainty(name: ContactQuantity): boolean {
  return !name.startsWith('peak_');
}

function key(name: string, definition: string): ExportColumn {
  return { name, type: 'integer', unit: '', required: true, minimum: 1, definition, source: OWN };
}

import type { ExportOrder } from '../../../shared/schemas/export.ts';
import { VERSION } from '../../version.ts';

/** What a level did to a data set, as it is written into it. */
export interface LevelStatement {
  level: 'named' | 'pseudonyms' | 'open';
  meaning: string;
  done: string[];
  /** What somebody who knows more than this set may still find. */
  left: string[];
  made_with: string;
}

/** Fewest people of a data set who share whatever the open level says about a body. */
export const FEWEST_ALIKE = 3;

/** The level of an order: open where it says so, else by whether it asks for names. */
export function levelOf(order: ExportOrder): LevelStatement['level'] {
  if (order.level === 'open') return 'open';
  return order.with_names ? 'named' : 'pseudonyms';
}

const LEFT_OPEN = [
  'Times over a course may be known from a published list of results.',
  'Raw signals and their rates are those of real sensors: whoever holds a copy of one recognises it.',
  'How many sessions and repetitions somebody ran, and over which distances, may be known to those who were there.',
];

/** What is written beside the data, so that those who receive it know what was done to it. */
export function levelStatement(order: ExportOrder): LevelStatement {
  const level = levelOf(order);
  const moved = order.shift_dates ? ["dates moved by an amount of each athlete's own, 1 to 365 days"] : [];
  const text = order.with_free_text ? ['titles and notes as written'] : ['titles and notes left out'];
  const statements: Record<LevelStatement['level'], Omit<LevelStatement, 'level' | 'made_with'>> = {
    named: {
      meaning: 'Names as they are: for use inside the club.',
      done: [...text, ...moved],
      left: ['Everybody is named.'],
    },
    pseudonyms: {
      meaning: 'Names and sessions replaced; for partners who are bound by an agreement not to look for people.',
      done: ['names replaced by pseudonyms', 'birth dates replaced by completed years', ...text, ...moved],
      left: [
        'Dates, weather, bodies, file hashes and identifiers of repetitions tell sessions and people to those who know the club.',
        ...LEFT_OPEN,
      ],
    },
    open: {
      meaning: 'Made for publishing: what links to dates, sessions and people is out, moved or in bands.',
      done: [
        'names replaced by pseudonyms, rows put in their order',
        'dates replaced by dates before 1926 that keep the order of sessions and the number of four weeks between them',
        'times of day replaced by the order of recordings',
        'running numbers counted anew',
        'weather and wind left out',
        'surface, footwear, titles and notes left out',
        `age, body mass and stature in bands, left out where fewer than ${FEWEST_ALIKE} athletes would share them; leg length left out`,
        'stiffness and forces in newton left out, from which a body mass could be worked out',
        'hashes of raw files and the time of the export left out',
      ],
      left: LEFT_OPEN,
    },
  };
  return { level, ...statements[level], made_with: `Cinderlane ${VERSION}` };
}

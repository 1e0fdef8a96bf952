import { PHASES, SIDES, SPATIAL_SOURCES } from '../words.ts';
import type { ContactMark } from './field.ts';

const OWN = 'own definition';

/** What names or qualifies a contact, beside its quantities. */
export const CONTACT_MARKS = {
  repetition: {
    level: 'contact',
    kind: 'count',
    unit: '1',
    decimals: 0,
    definition: 'Number of the repetition within the recording, from 1.',
    source: OWN,
    required: true,
  },
  step: {
    level: 'contact',
    kind: 'count',
    unit: '1',
    decimals: 0,
    definition: 'Number of the contact within its repetition, over both feet in time order.',
    source: OWN,
    required: true,
  },
  side: {
    level: 'contact',
    kind: 'word',
    unit: '',
    words: SIDES,
    definition: "The foot on the ground; 'unknown' where the sensor's side was not given.",
    source: OWN,
    required: true,
  },
  phase: {
    level: 'contact',
    kind: 'word',
    unit: '',
    words: PHASES,
    definition: 'Phase of the repetition; empty where it cannot be told.',
    source: 'common practice',
  },
  confidence: {
    level: 'contact',
    kind: 'share',
    unit: '1',
    decimals: 1,
    definition: 'How sure the detection is that this is a running contact with these instants.',
    source: OWN,
    required: true,
  },
  assumes_symmetry: {
    level: 'contact',
    kind: 'flag',
    unit: '',
    definition: 'True where flight and step values rest on one foot and take left and right for alike.',
    source: OWN,
    required: true,
  },
  spatial_source: {
    level: 'contact',
    kind: 'word',
    unit: '',
    words: SPATIAL_SOURCES,
    definition: 'What step length and speed come from.',
    source: OWN,
  },
  touchdown_raw_s: {
    level: 'contact',
    kind: 'instant',
    unit: 's',
    decimals: 3,
    definition: 'The instant before any correction for known bias.',
    source: OWN,
  },
  toe_off_raw_s: {
    level: 'contact',
    kind: 'instant',
    unit: 's',
    decimals: 3,
    definition: 'The instant before any correction for known bias.',
    source: OWN,
  },
} as const satisfies Record<string, ContactMark>;

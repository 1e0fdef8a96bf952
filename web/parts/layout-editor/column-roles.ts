import { phrasesOf } from '../../app/language.ts';
import { filesWords } from '../../../shared/messages/en/view/files.ts';

const t = phrasesOf('files', filesWords);
export const AXES = ['x', 'y', 'z'] as const;
export type Axis = (typeof AXES)[number];

/** What a column can be taken for. */
export type Role =
  | 'none'
  | 'time'
  | 'date'
  | 'clock'
  | 'counter'
  | 'side'
  // What only the program finds: told of, kept, and given up by choosing another role.
  | 'fraction'
  | 'quantity'
  | `${'acc' | 'gyr' | 'both' | 'gravity'}_${Axis}`;

export function roleOf<Kind extends 'acc' | 'gyr' | 'both' | 'gravity'>(kind: Kind, axis: Axis): `${Kind}_${Axis}` {
  return `${kind}_${axis}`;
}

/** A role in words; the axes carry theirs with them. */
export const roleWords = (role: Role): string => t(`role_${role}`);

export const PLAIN_ROLES: Role[] = ['none', 'time', 'date', 'clock', 'counter'];
export const AXIS_ROLES: Role[] = ['acc_x', 'acc_y', 'acc_z', 'gyr_x', 'gyr_y', 'gyr_z'];

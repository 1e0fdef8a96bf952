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
export const ROLE_WORDS: Record<Role, string> = {
  none: 'not used',
  time: 'time',
  date: 'date',
  clock: 'time of day',
  counter: 'sample counter',
  side: 'which foot',
  acc_x: 'acceleration x',
  acc_y: 'acceleration y',
  acc_z: 'acceleration z',
  gyr_x: 'rotation x',
  gyr_y: 'rotation y',
  gyr_z: 'rotation z',
  fraction: 'part of a second',
  quantity: 'which quantity',
  both_x: 'acceleration, rotation x',
  both_y: 'acceleration, rotation y',
  both_z: 'acceleration, rotation z',
  gravity_x: 'gravity x, added',
  gravity_y: 'gravity y, added',
  gravity_z: 'gravity z, added',
};

export const PLAIN_ROLES: Role[] = ['none', 'time', 'date', 'clock', 'counter'];
export const AXIS_ROLES: Role[] = ['acc_x', 'acc_y', 'acc_z', 'gyr_x', 'gyr_y', 'gyr_z'];

import { AXES } from './column-roles.ts';
import { hasFirstRoles, place } from './layout-draft.ts';
import type { LayoutDraft } from './draft.ts';
import { accScale, gyrScale } from './scales.ts';
import { timeColumns } from './time-draft.ts';

/** What is still to be said before a file can be read so, in words; empty when nothing is. */
export function missingOf(draft: LayoutDraft): string {
  const roles = hasFirstRoles(draft) ? '' : missingRole(draft);
  if (roles !== '') return roles;
  if (draft.arrangement === 'rows' && draft.side_values.every((value) => value === '')) {
    return 'Say what that column holds for left and for right.';
  }
  if (accScale(draft.acc) === null) return 'Say how many counts are 1 g.';
  if (gyrScale(draft.gyr) === null) return 'Say how many counts are 1 deg/s.';
  return timeColumns(draft).missing;
}

function missingRole(draft: LayoutDraft): string {
  const two = draft.arrangement === 'columns';
  for (const sensor of two ? ([0, 1] as const) : ([0] as const)) {
    const whose = two ? ` of the ${sensor === 0 ? 'left' : 'right'} sensor` : '';
    const lacks = (kind: 'acc' | 'gyr') => AXES.filter((axis) => place(draft, kind, axis, sensor) < 0);
    const acc = lacks('acc');
    if (acc.length > 0) return `Say which column holds acceleration ${acc.join(', ')}${whose}.`;
    const gyr = lacks('gyr');
    if (gyr.length > 0 && gyr.length < 3) return `Say which column holds rotation ${gyr.join(', ')}${whose}, or none.`;
  }
  if (draft.arrangement === 'rows' && !draft.columns.some(({ role }) => role === 'side')) {
    return 'Say which column tells the foot of a row.';
  }
  return '';
}

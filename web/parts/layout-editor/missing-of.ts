import { phrasesOf } from '../../app/language.ts';
import { filesWords } from '../../../shared/messages/en/view/files.ts';
import { AXES } from './column-roles.ts';
import { hasFirstRoles, place } from './layout-draft.ts';
import type { LayoutDraft } from './draft.ts';
import { accScale, gyrScale } from './scales.ts';
import { timeColumns } from './time-draft.ts';

const t = phrasesOf('files', filesWords);

/** What is still to be said before a file can be read so, in words; empty when nothing is. */
export function missingOf(draft: LayoutDraft): string {
  const roles = hasFirstRoles(draft) ? '' : missingRole(draft);
  if (roles !== '') return roles;
  if (draft.arrangement === 'rows' && draft.side_values.every((value) => value === '')) {
    return t('say_what_that_column_holds');
  }
  if (accScale(draft.acc) === null) return t('say_how_many_counts_are');
  if (gyrScale(draft.gyr) === null) return t('say_how_many_counts_are_2');
  return timeColumns(draft).missing;
}

function missingRole(draft: LayoutDraft): string {
  const two = draft.arrangement === 'columns';
  for (const sensor of two ? ([0, 1] as const) : ([0] as const)) {
    const whose = two ? t(sensor === 0 ? 'of_left_sensor' : 'of_right_sensor') : '';
    const lacks = (kind: 'acc' | 'gyr') => AXES.filter((axis) => place(draft, kind, axis, sensor) < 0);
    const acc = lacks('acc');
    if (acc.length > 0) return t('say_which_column_holds_acceleration', { acc: acc.join(', '), whose });
    const gyr = lacks('gyr');
    if (gyr.length > 0 && gyr.length < 3) return t('say_which_column_holds_rotation', { gyr: gyr.join(', '), whose });
  }
  if (draft.arrangement === 'rows' && !draft.columns.some(({ role }) => role === 'side')) {
    return t('say_which_column_tells_the');
  }
  return '';
}

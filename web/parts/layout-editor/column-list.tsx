import { phrasesOf, speech } from '../../app/language.ts';
import { filesWords } from '../../../shared/messages/en/view/files.ts';
import type { FileColumn } from '../../../shared/schemas/layout-preview.ts';
import { AXIS_ROLES, PLAIN_ROLES, roleWords, type Role } from './column-roles.ts';
import { withRole } from './layout-draft.ts';
import type { ColumnDraft, LayoutDraft } from './draft.ts';

const t = phrasesOf('files', filesWords);

interface ColumnListProps {
  columns: FileColumn[];
  draft: LayoutDraft;
  onChange: (draft: LayoutDraft) => void;
}

/** Every column of the file with its first values, what it is taken for, and whether its sign is turned. */
export function ColumnList({ columns, draft, onChange }: ColumnListProps) {
  return (
    <ol class="columns">
      {columns.map((column) => {
        const own = draft.columns[column.index];
        if (!own) return null;
        const name = column.name || t('column_2', { index: column.index + 1 });
        const turn = (turned: boolean) =>
          onChange({
            ...draft,
            columns: draft.columns.map((other, at) => (at === column.index ? { ...other, turned } : other)),
          });
        return (
          <li key={column.index} class={own.role === 'none' ? 'unused' : undefined}>
            <div class="column-name">
              <strong>{name}</strong> {column.unit && <span class="quiet small">{column.unit}</span>}
              <div class="small quiet values">{column.first.slice(0, 3).join('  ·  ')}</div>
              {column.least !== null && column.greatest !== null && (
                <div class="small quiet">
                  {t('to', { least: shortNumber(column.least), greatest: shortNumber(column.greatest) })}
                </div>
              )}
            </div>
            <label class="field">
              <span class="visually-hidden">{t('is', { name })}</span>
              <select
                value={keyOf(own)}
                onChange={(event) => {
                  const [role, sensor] = event.currentTarget.value.split(' ');
                  onChange(withRole(draft, column.index, role as Role, Number(sensor) as 0 | 1));
                }}
              >
                {isFound(own.role) && <option value={keyOf(own)}>{roleWords(own.role)}</option>}
                <RoleOptions draft={draft} />
              </select>
            </label>
            {AXIS_ROLES.includes(own.role) || own.role.startsWith('both') ? (
              <label class="check">
                <input type="checkbox" checked={own.turned} onChange={(event) => turn(event.currentTarget.checked)} />
                <span>
                  {t('sign_turned_2')}
                  <span class="visually-hidden">{t('of', { name })}</span>
                </span>
              </label>
            ) : (
              <span />
            )}
          </li>
        );
      })}
    </ol>
  );
}

function RoleOptions({ draft }: { draft: LayoutDraft }) {
  const plain = draft.arrangement === 'rows' ? [...PLAIN_ROLES, 'side' as const] : PLAIN_ROLES;
  const axes = (sensor: 0 | 1, whose: string) =>
    AXIS_ROLES.map((role) => (
      <option key={role} value={`${role} ${sensor}`}>
        {whose}
        {roleWords(role)}
      </option>
    ));
  return (
    <>
      {plain.map((role) => (
        <option key={role} value={`${role} 0`}>
          {roleWords(role)}
        </option>
      ))}
      {draft.arrangement === 'columns' ? (
        <>
          <optgroup label={t('left_sensor')}>{axes(0, t('left'))}</optgroup>
          <optgroup label={t('right_sensor')}>{axes(1, t('right'))}</optgroup>
        </>
      ) : (
        axes(0, '')
      )}
    </>
  );
}

/** Roles that only the program gives. */
function isFound(role: Role): boolean {
  return !AXIS_ROLES.includes(role) && !PLAIN_ROLES.includes(role) && role !== 'side';
}

function keyOf({ role, sensor }: ColumnDraft): string {
  return `${role} ${AXIS_ROLES.includes(role) ? sensor : 0}`;
}

function shortNumber(value: number): string {
  if (Math.abs(value) >= 1e6) return value.toExponential(2);
  return speech.value.number(Number(value.toPrecision(4))).replace('-', '−');
}

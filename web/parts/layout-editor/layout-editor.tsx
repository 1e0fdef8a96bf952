import { phrasesOf } from '../../app/language.ts';
import { filesWords } from '../../../shared/messages/en/view/files.ts';
import type { ReadingCheck } from '../../../shared/schemas/layout-preview.ts';
import type { Side } from '../../../shared/words.ts';
import { EvidenceTable } from '../evidence-table.tsx';
import { FaultBox } from '../fault-box.tsx';
import { ColumnList } from './column-list.tsx';
import { type Role, roleOf } from './column-roles.ts';
import { FileLines } from './file-lines.tsx';
import type { LayoutDraft } from './draft.ts';
import { ReadingChecks } from './reading-checks.tsx';
import { ReadingBar, ReadingStatus } from './reading-status.tsx';
import { SaveLayout } from './save-layout.tsx';
import { SensorFields } from './sensor-fields.tsx';
import { TextFields } from './text-fields.tsx';
import { UnitFields } from './unit-fields.tsx';
import type { LayoutWork } from './use-layout-preview.ts';

const t = phrasesOf('files', filesWords);

interface LayoutEditorProps {
  work: LayoutWork;
  fileName: string;
  side: Side | null;
  /** Proposed name for keeping; that of the layout in use or of the file without it. */
  name?: string;
  onSaved?: () => void;
}

/** What a file is taken for, column by column, to be looked at and put right; what comes out is shown beside it. */
export function LayoutEditor({ work, fileName, side, name, onSaved }: LayoutEditorProps) {
  const { preview, found, draft, missing } = work;
  if (!preview || !draft) return <ReadingStatus work={work} />;
  // While something is asked for, that comes first; where there are no columns there is nothing to ask for.
  const asks = preview.choices.length > 0 || (missing !== '' && preview.columns.length > 0);
  const refused = asks ? null : preview.fault;
  return (
    <div class="layout-editor">
      <div class="layout-said">
        <h2>{t('the_file')}</h2>
        <FileLines lines={preview.lines} name={fileName} />
        <TextFields preview={preview} text={work.text} onChange={work.changeText} />
        {preview.columns.length > 0 && (
          <>
            <h2>{t('columns')}</h2>
            {draft.base?.quantity_column === undefined && (
              <SensorFields draft={draft} columns={preview.columns} side={side} onChange={work.change} />
            )}
            <ColumnList columns={preview.columns} draft={draft} onChange={work.change} />
            <UnitFields draft={draft} onChange={work.change} />
          </>
        )}
        {found && found.evidence.length > 0 && (
          <details>
            <summary>{t('why_it_was_read_so')}</summary>
            <EvidenceTable evidence={found.evidence} caption={t('as_the_program_found_it')} />
          </details>
        )}
      </div>
      <ReadingBar work={work} />
      <section class="layout-outcome" aria-label={t('what_comes_out')}>
        <h2>{t('what_comes_out')}</h2>
        <ReadingStatus work={work} brief={refused !== null} />
        {refused && <FaultBox fault={refused} />}
        {missing === '' &&
          preview.sensors.map((sensor, at) => (
            <ReadingChecks
              key={at}
              sensor={sensor}
              named={preview.sensors.length > 1}
              onTurn={hasOwnRotation(draft) ? (axes) => work.change(turned(draft, axes)) : undefined}
            />
          ))}
        {preview.rejected_count > 0 && (
          <p class="small">{t('of_the_first_rows_are', { rejected_count: preview.rejected_count })}</p>
        )}
        {work.changed && (
          <p>
            <button type="button" onClick={work.reset}>
              {t('undo_my_changes')}
            </button>
          </p>
        )}
        <SaveLayout layout={work.layout} name={name ?? found?.saved_layout ?? nameOf(fileName)} onSaved={onSaved} />
      </section>
    </div>
  );
}

function nameOf(fileName: string): string {
  return fileName.replace(/\.gz$/i, '').replace(/\.[a-z]+$/i, '');
}

/** False where acceleration and rotation share their columns: turning one would turn both. */
function hasOwnRotation({ columns }: LayoutDraft): boolean {
  return columns.some(({ role }) => role.startsWith('gyr'));
}

function turned(draft: LayoutDraft, axes: ReadingCheck['turn']): LayoutDraft {
  const roles: Role[] = axes.map((axis) => roleOf('gyr', axis));
  return {
    ...draft,
    columns: draft.columns.map((column) =>
      roles.includes(column.role) ? { ...column, turned: !column.turned } : column,
    ),
  };
}

import { phrasesOf } from '../../app/language.ts';
import { commonWords } from '../../../shared/messages/en/view/common.ts';
import { filesWords } from '../../../shared/messages/en/view/files.ts';
import { useState } from 'preact/hooks';
import { type Fault, fault as makeFault } from '../../../shared/fault.ts';
import type { NewSavedLayout, SavedLayout } from '../../../shared/schemas/saved-layout.ts';
import { api, paths } from '../../api.ts';
import { useResource } from '../../app/use-resource.ts';
import { faultOf } from '../../client.ts';
import { DeletedList } from '../../parts/deleted-list.tsx';
import { EmptyState } from '../../parts/empty-state.tsx';
import { FaultBox } from '../../parts/fault-box.tsx';
import { ResourceView } from '../../parts/resource-view.tsx';
import { offerUndo } from '../../parts/undo.tsx';
import { LayoutLine } from './layout-line.tsx';
import { TryFile } from './try-file.tsx';

const t = phrasesOf('files', filesWords);
const common = phrasesOf('common', commonWords);

/** Layouts kept for files whose columns needed an answer; exported to and imported from colleagues. */
export default function LayoutsPage() {
  const layouts = useResource<{ items: SavedLayout[] }>(paths.layouts);
  const [fault, setFault] = useState<Fault | null>(null);

  async function bringIn(file: File | undefined) {
    if (!file) return;
    try {
      const read = JSON.parse(await file.text()) as NewSavedLayout;
      await api.addLayout({ name: read.name, layout: read.layout });
      setFault(null);
      await layouts.reload();
    } catch (error) {
      setFault(error instanceof SyntaxError ? notJson(file.name) : faultOf(error));
    }
  }

  async function remove(layout: SavedLayout) {
    await api.deleteLayout(layout.layout_id);
    await layouts.reload();
    offerUndo(t('layout_deleted', { name: layout.name }), async () => {
      await api.restoreLayout(layout.layout_id);
      await layouts.reload();
    });
  }

  return (
    <>
      <h1>{t('file_layouts')}</h1>
      <p class="quiet">{t('how_the_columns_of_a')}</p>
      {fault && <FaultBox fault={fault} />}
      <ResourceView resource={layouts} name={t('layouts')}>
        {({ items }) =>
          items.length === 0 ? (
            <EmptyState title={t('no_layouts_kept')}>
              <p>
                {t('most_files_need_none_columns')}
                <a href="#/files">{common('files_in')}</a>
                {t('asks_and_the_answer_can')}
              </p>
            </EmptyState>
          ) : (
            <ul class="lines">
              {items.map((saved) => (
                <LayoutLine
                  key={saved.layout_id}
                  saved={saved}
                  onChanged={() => void layouts.reload()}
                  onDelete={() => void remove(saved)}
                />
              ))}
            </ul>
          )
        }
      </ResourceView>
      <DeletedList<SavedLayout>
        what={t('layouts')}
        path={paths.layouts}
        id={({ layout_id }) => layout_id}
        name={({ name }) => name}
        detail={({ layout }) => common('n_columns', { n: layout.column_count })}
        onRestored={layouts.reload}
      />
      <h2>{t('from_a_file')}</h2>
      <TryFile label={t('a_file_of_the_sensor')} onSaved={() => void layouts.reload()} />
      <h2>{t('from_a_colleague')}</h2>
      <label class="field drop-area">
        <span>{t('bring_in_a_layout_that')}</span>
        <input
          type="file"
          accept=".json,application/json"
          onChange={(event) => {
            void bringIn(event.currentTarget.files?.[0]);
            event.currentTarget.value = '';
          }}
        />
      </label>
    </>
  );
}

function notJson(file: string): Fault {
  return makeFault('LAYOUT_UNREADABLE.no_json', { file }, { file });
}

import { useState } from 'preact/hooks';
import { type Fault, fault as makeFault } from '../../../shared/fault.ts';
import type { NewSavedLayout, SavedLayout } from '../../../shared/schemas/saved-layout.ts';
import { api, paths } from '../../api.ts';
import { count } from '../../app/describe.ts';
import { useResource } from '../../app/use-resource.ts';
import { faultOf } from '../../client.ts';
import { DeletedList } from '../../parts/deleted-list.tsx';
import { EmptyState } from '../../parts/empty-state.tsx';
import { FaultBox } from '../../parts/fault-box.tsx';
import { ResourceView } from '../../parts/resource-view.tsx';
import { offerUndo } from '../../parts/undo.tsx';
import { LayoutLine } from './layout-line.tsx';
import { TryFile } from './try-file.tsx';

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
    offerUndo(`Layout "${layout.name}" deleted.`, async () => {
      await api.restoreLayout(layout.layout_id);
      await layouts.reload();
    });
  }

  return (
    <>
      <h1>File layouts</h1>
      <p class="quiet">
        How the columns of a sensor's files are named, scaled and timed. A file of the same shape is read with its
        layout, without asking.
      </p>
      {fault && <FaultBox fault={fault} />}
      <ResourceView resource={layouts} name="layouts">
        {({ items }) =>
          items.length === 0 ? (
            <EmptyState title="No layouts kept">
              <p>
                Most files need none: columns, units and time are found from the file. Where a file can be read in two
                ways, <a href="#/files">Files in</a> asks, and the answer can be kept here.
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
        what="layouts"
        path={paths.layouts}
        id={({ layout_id }) => layout_id}
        name={({ name }) => name}
        detail={({ layout }) => count(layout.column_count, 'column')}
        onRestored={layouts.reload}
      />
      <h2>From a file</h2>
      <TryFile
        label="A file of the sensor, to see how it is read and put that right"
        onSaved={() => void layouts.reload()}
      />
      <h2>From a colleague</h2>
      <label class="field drop-area">
        <span>Bring in a layout that was exported elsewhere</span>
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

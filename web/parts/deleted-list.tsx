import { phrasesOf } from '../app/language.ts';
import { commonWords } from '../../shared/messages/en/view/common.ts';
import { useState } from 'preact/hooks';
import type { Fault } from '../../shared/fault.ts';
import { useResource } from '../app/use-resource.ts';
import { client, faultOf } from '../client.ts';
import { FaultBox } from './fault-box.tsx';
import { ResourceView } from './resource-view.tsx';

const common = phrasesOf('common', commonWords);

interface DeletedListProps<Item> {
  /** In the plural: `sessions`. */
  what: string;
  /** Path of the list, behind `/api`. */
  path: string;
  id: (item: Item) => number;
  name: (item: Item) => string;
  detail?: (item: Item) => string;
  onRestored: () => unknown;
}

/** What was deleted of a list, for as long as somebody may want something back. */
export function DeletedList<Item>({ what, path, id, name, detail, onRestored }: DeletedListProps<Item>) {
  const [open, setOpen] = useState(false);
  const [fault, setFault] = useState<Fault | null>(null);
  const deleted = useResource<{ items: Item[] }>(open ? `${path}?deleted=true` : null);
  async function restore(item: Item) {
    try {
      await client.post(`${path}/${id(item)}/restore`);
      setFault(null);
      await Promise.all([deleted.reload(), onRestored()]);
    } catch (error) {
      setFault(faultOf(error));
    }
  }
  return (
    <details class="no-print" onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>{common('deleted', { what })}</summary>
      {fault && <FaultBox fault={fault} />}
      {open && (
        <ResourceView resource={deleted} name={common('deleted_2', { what })}>
          {({ items }) =>
            items.length === 0 ? (
              <p>{common('none_what_is_deleted_can')}</p>
            ) : (
              <ul class="lines">
                {items.map((item) => (
                  <li key={id(item)} class="line">
                    <span class="line-main">
                      <strong>{name(item)}</strong>
                      {detail && <span class="quiet">{detail(item)}</span>}
                    </span>
                    <button type="button" onClick={() => void restore(item)}>
                      {common('restore')}
                      <span class="visually-hidden"> {`${name(item)} ${detail?.(item) ?? ''}`}</span>
                    </button>
                  </li>
                ))}
              </ul>
            )
          }
        </ResourceView>
      )}
    </details>
  );
}

import { useState } from 'preact/hooks';
import type { AthleteList } from '../../../../shared/schemas/athlete.ts';
import type { Fault } from '../../../../shared/fault.ts';
import { paths } from '../../../api.ts';
import { useResource } from '../../../app/use-resource.ts';
import { client, faultOf } from '../../../client.ts';
import { FaultBox } from '../../../parts/fault-box.tsx';

/** Athletes that were deleted and can be taken back, however long ago. Silent when there are none. */
export function DeletedAthletes({ onRestored }: { onRestored: () => Promise<void> }) {
  const deleted = useResource<AthleteList>(`${paths.athletes}?deleted=true`);
  const [fault, setFault] = useState<Fault | null>(null);
  const items = deleted.value?.items ?? [];
  if (items.length === 0) return null;
  const restore = async (athlete_id: number) => {
    setFault(null);
    try {
      await client.post(`/athletes/${athlete_id}/restore`);
      await Promise.all([deleted.reload(), onRestored()]);
    } catch (error) {
      setFault(faultOf(error));
    }
  };
  return (
    <details class="more">
      <summary>Deleted athletes: {items.length}</summary>
      {fault && <FaultBox fault={fault} />}
      <ul>
        {items.map(({ athlete_id, name }) => (
          <li key={athlete_id}>
            {name}{' '}
            <button type="button" class="plain" onClick={() => void restore(athlete_id)}>
              Take back<span class="visually-hidden"> {name}</span>
            </button>
          </li>
        ))}
      </ul>
    </details>
  );
}

import { archiveWords } from '../../../shared/messages/en/view/archive.ts';
import type { FigureChange } from '../../../shared/schemas/reanalysis.ts';
import { formatNumber } from '../../app/format.ts';
import { phrasesOf } from '../../app/language.ts';
import { TableScroll } from '../../parts/table-scroll.tsx';
import { displayQuantity } from '../coach/quantity-text.ts';
import { countText } from './archive-api.ts';

const t = phrasesOf('archive', archiveWords);

/** How each figure changed from the earlier results to those of a run. */
export function ChangesTable({ changes }: { changes: FigureChange[] }) {
  if (changes.length === 0) return <p>{t('nothing_to_compare')}</p>;
  return (
    <>
      <p class="small quiet">{t('beside_help')}</p>
      <TableScroll label={t('beside')}>
        <table class="numbers">
          <thead>
            <tr>
              <th class="word">{t('figure')}</th>
              <th>n</th>
              <th>{t('mean_change')}</th>
              <th>{t('largest')}</th>
              <th>{t('unchanged')}</th>
              <th>{t('lost')}</th>
              <th>{t('gained')}</th>
            </tr>
          </thead>
          <tbody>
            {changes.map((change) => (
              <ChangeRow key={change.quantity} change={change} />
            ))}
          </tbody>
        </table>
      </TableScroll>
    </>
  );
}

function ChangeRow({ change }: { change: FigureChange }) {
  const { label, unit, factor, decimals } = displayQuantity(change.quantity);
  // Changes are smaller than what changes.
  const shown = (value: number) => (value === 0 ? '0' : formatNumber(value * factor, decimals + 1));
  return (
    <tr>
      <th scope="row" class="word">
        {label}
        {unit && <span class="half"> ({unit})</span>}
      </th>
      <td>{countText(change.n)}</td>
      <td>
        {shown(change.mean_change)}
        {change.sd_change !== null && change.sd_change > 0 && <span class="half"> ± {shown(change.sd_change)}</span>}
      </td>
      <td>{shown(change.largest_change)}</td>
      <td>{countText(change.unchanged)}</td>
      <td>{countText(change.lost)}</td>
      <td>{countText(change.gained)}</td>
    </tr>
  );
}

import type { ContactQuantity } from '../../shared/analysis.ts';
import { CONTACT_FIELDS } from '../../shared/fields.ts';
import { displayOf } from '../app/format.ts';

/** What the quantities mean, in the dictionary's own words. */
export function Glossary({ quantities }: { quantities: readonly ContactQuantity[] }) {
  return (
    <dl class="glossary">
      {quantities.map((quantity) => {
        const field = CONTACT_FIELDS[quantity];
        if (!field) return null;
        const { label, unit } = displayOf(quantity);
        return (
          <div key={quantity}>
            <dt>
              {label}
              {unit && <span class="quiet">, {unit}</span>}
            </dt>
            <dd>
              {field.definition} <span class="quiet small">{field.source}</span>
            </dd>
          </div>
        );
      })}
    </dl>
  );
}

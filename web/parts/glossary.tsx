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
              {field.definition} <span class="quiet small">{namedSource(field.source)}</span>
            </dd>
          </div>
        );
      })}
    </dl>
  );
}

/** A source that a reader can look up; what everyone in the trade does has none to name. */
function namedSource(source: string): string {
  return source.replace(/^common practice(?:; )?/, '');
}

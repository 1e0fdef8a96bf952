import type { ContactQuantity } from '../../shared/analysis.ts';
import { CONTACT_FIELDS } from '../../shared/fields.ts';
import { displayOf } from '../app/format.ts';
import { Citation } from './citation.tsx';

/** What the quantities mean, as the dictionary has it. */
export function Glossary({ quantities }: { quantities: readonly ContactQuantity[] }) {
  return (
    <dl class="glossary">
      {quantities.map((quantity) => {
        const field = CONTACT_FIELDS[quantity];
        if (!field) return null;
        const { label, unit, definition } = displayOf(quantity);
        return (
          <div key={quantity}>
            <dt>
              {label}
              {unit && <span class="quiet">, {unit}</span>}
            </dt>
            <dd>
              {definition}{' '}
              <span class="quiet small">
                <Citation>{namedSource(field.source)}</Citation>
              </span>
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

import { MOUNTING_PLACES } from '../../../../shared/mountings.ts';
import '../coach.css';
import type { Focus } from '../../../../shared/schemas/coach/focus.ts';
import { useResource } from '../../../app/use-resource.ts';
import { Cautions } from '../../../parts/cautions.tsx';
import { ResourceView } from '../../../parts/resource-view.tsx';
import { coachPaths } from '../coach-api.ts';
import { displayQuantity } from '../quantity-text.ts';
import { FocusText } from './focus-text.tsx';

/** Every focus: its meaning and the numbers it rests on. */
export default function FocusesPage() {
  const focuses = useResource<{ items: Focus[] }>(coachPaths.focuses);
  return (
    <>
      <h1>Focuses</h1>
      <p>
        Pick one for an athlete and keep it for four to eight weeks (common practice). Each rests on numbers that a
        sensor on the shoe or shank can give.
      </p>
      <ResourceView resource={focuses} name="focuses">
        {({ items }) => (
          <>
            {items.map((focus) => (
              <article class="sheet" key={focus.key}>
                <h2>{focus.name}</h2>
                <p>{focus.meaning}</p>
                <dl class="pairs">
                  {focus.quantities.map(({ quantity, aim, mounting }) => (
                    <>
                      <dt>{displayQuantity(quantity).label}</dt>
                      <dd>
                        {aim === 'no fixed direction' ? 'no fixed direction' : `usually wanted ${aim}`}
                        {mounting ? `, sensor on the ${MOUNTING_PLACES[mounting].place}` : ''}
                      </dd>
                    </>
                  ))}
                </dl>
                <details class="more">
                  <summary>
                    What to try<span class="visually-hidden"> ({focus.name})</span>
                  </summary>
                  <FocusText focus={focus} plain />
                </details>
              </article>
            ))}
          </>
        )}
      </ResourceView>
      <Cautions />
    </>
  );
}

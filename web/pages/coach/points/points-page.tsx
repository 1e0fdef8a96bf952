import '../coach.css';
import type { TechniquePoint } from '../../../../shared/schemas/coach/technique-point.ts';
import { useResource } from '../../../app/use-resource.ts';
import { Cautions } from '../../../parts/cautions.tsx';
import { ResourceView } from '../../../parts/resource-view.tsx';
import { coachPaths } from '../coach-api.ts';
import { displayQuantity } from '../quantity-text.ts';
import { PointText } from './point-text.tsx';

/** Every technique point: its meaning and the numbers it rests on. */
export default function PointsPage() {
  const points = useResource<{ items: TechniquePoint[] }>(coachPaths.points);
  return (
    <>
      <h1>Technique points</h1>
      <p>
        Pick one for an athlete and keep it for four to eight weeks (common practice). Each rests on numbers that a
        sensor on the shoe or shank can give.
      </p>
      <ResourceView resource={points} name="technique points">
        {({ items }) => (
          <>
            {items.map((point) => (
              <article class="sheet" key={point.key}>
                <h2>{point.name}</h2>
                <p>{point.meaning}</p>
                <dl class="pairs">
                  {point.quantities.map(({ quantity, aim, mounting }) => (
                    <>
                      <dt>{displayQuantity(quantity).label}</dt>
                      <dd>
                        {aim === 'no fixed direction' ? 'no fixed direction' : `usually wanted ${aim}`}
                        {mounting ? `, sensor on the ${mounting === 'foot' ? 'shoe' : 'shank'}` : ''}
                      </dd>
                    </>
                  ))}
                </dl>
                <details class="more">
                  <summary>
                    What to try<span class="visually-hidden"> ({point.name})</span>
                  </summary>
                  <PointText point={point} plain />
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

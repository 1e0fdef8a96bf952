import { MOUNTING_PLACES } from '../../../../shared/mountings.ts';
import '../coach.css';
import type { Focus } from '../../../../shared/schemas/coach/focus.ts';
import { useResource } from '../../../app/use-resource.ts';
import { Cautions } from '../../../parts/cautions.tsx';
import { ResourceView } from '../../../parts/resource-view.tsx';
import { offerUndo } from '../../../parts/undo.tsx';
import { coachApi, coachPaths } from '../coach-api.ts';
import { displayQuantity } from '../quantity-text.ts';
import { useAttempt } from '../use-attempt.ts';
import { FocusText } from './focus-text.tsx';
import { OwnFocusForm } from './own-focus-form.tsx';

/** Every focus, the coach's own first: its meaning, its numbers, its cue or its source. */
export default function FocusesPage() {
  const focuses = useResource<{ items: Focus[] }>(coachPaths.focuses);
  const { attempt } = useAttempt(focuses.reload);
  const remove = (focus: Focus) =>
    attempt(async () => {
      await coachApi.deleteCoachFocus(focus.coach_focus_id!);
      offerUndo(`"${focus.name}" deleted`, async () => {
        await coachApi.restoreCoachFocus(focus.coach_focus_id!);
        await focuses.reload();
      });
    });
  return (
    <>
      <h1>Focuses</h1>
      <p>
        The one thing an athlete works on, with the number a sensor on the shoe or shank gives for it. The list holds
        what published findings support; anything else is yours to write.
      </p>
      <ResourceView resource={focuses} name="focuses">
        {({ items }) => (
          <>
            {items.map((focus) => (
              <article class="sheet" key={focus.key}>
                <h2>{focus.name}</h2>
                {focus.meaning && <p>{focus.meaning}</p>}
                <dl class="pairs">
                  {focus.quantities.map((entry) => (
                    <>
                      <dt>{displayQuantity(entry.quantity).label}</dt>
                      <dd>{wanted(entry)}</dd>
                    </>
                  ))}
                </dl>
                <FocusText focus={focus} />
                {focus.coach_focus_id !== null && (
                  <details class="more">
                    <summary>
                      Change or delete<span class="visually-hidden"> {focus.name}</span>
                    </summary>
                    <OwnFocusForm focus={focus} onSaved={focuses.reload} />
                    <button type="button" class="plain" onClick={() => void remove(focus)}>
                      Delete<span class="visually-hidden"> {focus.name}</span>
                    </button>
                  </details>
                )}
              </article>
            ))}
          </>
        )}
      </ResourceView>
      <OwnFocusForm onSaved={focuses.reload} />
      <Cautions />
    </>
  );
}

/** `wanted lower, aim 110 ms, sensor on the shoe`. */
function wanted({ quantity, aim, mounting, target }: Focus['quantities'][number]): string {
  const { unit, factor, decimals } = displayQuantity(quantity);
  return [
    aim === 'no fixed direction' ? aim : `wanted ${aim}`,
    target === null ? '' : `aim ${(target * factor).toFixed(decimals)} ${unit}`.trim(),
    mounting ? `sensor on the ${MOUNTING_PLACES[mounting].place}` : '',
  ]
    .filter(Boolean)
    .join(', ');
}

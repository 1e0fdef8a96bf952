import { formatNumber } from '../../../app/format.ts';
import { phrasesOf } from '../../../app/language.ts';
import { commonWords } from '../../../../shared/messages/en/view/common.ts';
import { courseWords } from '../../../../shared/messages/en/view/course.ts';
import { sensorOn } from '../../../app/mounting-words.ts';
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

const t = phrasesOf('course', courseWords);
const common = phrasesOf('common', commonWords);

/** Every focus, the coach's own first: its meaning, its numbers, its cue or its source. */
export default function FocusesPage() {
  const focuses = useResource<{ items: Focus[] }>(coachPaths.focuses);
  const { attempt } = useAttempt(focuses.reload);
  const remove = (focus: Focus) =>
    attempt(async () => {
      await coachApi.deleteCoachFocus(focus.coach_focus_id!);
      offerUndo(t('deleted', { name: focus.name }), async () => {
        await coachApi.restoreCoachFocus(focus.coach_focus_id!);
        await focuses.reload();
      });
    });
  return (
    <>
      <h1>{t('focuses')}</h1>
      <p>{t('the_one_thing_an_athlete')}</p>
      <ResourceView resource={focuses} name={t('focuses_2')}>
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
                      {t('change_or_delete')}
                      <span class="visually-hidden"> {focus.name}</span>
                    </summary>
                    <OwnFocusForm focus={focus} onSaved={focuses.reload} />
                    <button type="button" class="plain" onClick={() => void remove(focus)}>
                      {common('delete')}
                      <span class="visually-hidden"> {focus.name}</span>
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
    aim === 'no fixed direction' ? t('aim_no fixed direction') : t('wanted', { aim: t(`aim_${aim}`) }),
    target === null ? '' : t('aim', { target: formatNumber(target * factor, decimals), unit }).trim(),
    mounting ? sensorOn(mounting) : '',
  ]
    .filter(Boolean)
    .join(', ');
}

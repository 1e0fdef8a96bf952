import { phrasesOf } from '../../../app/language.ts';
import { courseWords } from '../../../../shared/messages/en/view/course.ts';
import { commonWords } from '../../../../shared/messages/en/view/common.ts';
import type { Focus } from '../../../../shared/schemas/coach/focus.ts';
import { Citation } from '../../../parts/citation.tsx';

const common = phrasesOf('common', commonWords);
const t = phrasesOf('course', courseWords);

/** The coach's cue, what the sensor cannot see, and where the list has it from. */
export function FocusText({ focus }: { focus: Focus }) {
  return (
    <section class="sheet">
      <h3>{common('cue')}</h3>
      <p>{focus.cue === '' ? t('no_cue_written_yet_write') : `“${focus.cue}”`}</p>
      {focus.sensor_cannot_see !== '' && (
        <>
          <h3>{t('what_the_sensor_cannot_see')}</h3>
          <p>{focus.sensor_cannot_see}</p>
        </>
      )}
      <p class="quiet small">
        {focus.coach_focus_id === null ? (
          <>
            {t('source')} <Citation>{focus.source}</Citation>
          </>
        ) : (
          t('your_own_focus')
        )}
      </p>
    </section>
  );
}

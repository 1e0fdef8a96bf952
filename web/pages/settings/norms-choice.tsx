import { settingsWords } from '../../../shared/messages/en/view/settings.ts';
import type { ClubNorms } from '../../../shared/schemas/coach/norms.ts';
import { formatDate } from '../../app/format.ts';
import { phrasesOf } from '../../app/language.ts';
import { useResource } from '../../app/use-resource.ts';
import { FaultBox } from '../../parts/fault-box.tsx';
import { coachApi, coachPaths } from '../coach/coach-api.ts';
import { useAttempt } from '../coach/use-attempt.ts';

const t = phrasesOf('settings', settingsWords);

/** Whether a programme's norms stand beside an athlete's own normal; nothing at all where the club fetched none. */
export function NormsChoice() {
  const resource = useResource<{ norms: ClubNorms | null }>(coachPaths.norms);
  const { fault, attempt } = useAttempt();
  const norms = resource.value?.norms;
  if (!norms) return null;
  return (
    <section>
      <h2>{t('norms')}</h2>
      <p class="break-anywhere">
        {t('norms_here', {
          programme: norms.programme,
          day: formatDate(norms.published_utc),
          key: norms.fingerprint,
        })}
      </p>
      {fault && <FaultBox fault={fault} />}
      <label class="check">
        <input
          type="checkbox"
          checked={norms.shown}
          onChange={(event) => {
            const { checked } = event.currentTarget;
            resource.set({ norms: { ...norms, shown: checked } });
            void attempt(() => coachApi.showNorms(checked)).then(resource.reload);
          }}
        />
        <span>{t('norms_show')}</span>
      </label>
      <p class="small quiet">{t('norms_help')}</p>
    </section>
  );
}

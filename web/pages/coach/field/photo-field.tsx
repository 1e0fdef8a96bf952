import { phrasesOf } from '../../../app/language.ts';
import { fieldWords } from '../../../../shared/messages/en/view/field.ts';
import { useState } from 'preact/hooks';
import { FaultBox } from '../../../parts/fault-box.tsx';
import { coachApi } from '../coach-api.ts';
import { useAttempt } from '../use-attempt.ts';

const t = phrasesOf('field', fieldWords);

interface PhotoFieldProps {
  repetition_id: number;
  aspect: string;
  /** One is stored already. */
  has: boolean;
}

/** A photograph beside a rating, for what no sensor sees. It is kept with the repetition on the club's machine. */
export function PhotoField({ repetition_id, aspect, has }: PhotoFieldProps) {
  const [kept, setKept] = useState(has);
  const [shown, setShown] = useState(0);
  const { fault, attempt } = useAttempt();
  return (
    <div class="field">
      {fault && <FaultBox fault={fault} />}
      {kept && (
        <img
          class="rating-photo"
          alt={t('beside_the_rating_of', { aspect })}
          src={`/api/coach/repetitions/${repetition_id}/ratings/${aspect}/photo?shown=${shown}`}
        />
      )}
      <label class="field">
        <span>{kept ? t('another_photograph') : t('photograph')}</span>
        <input
          type="file"
          accept="image/jpeg,image/png,image/webp"
          capture="environment"
          onChange={(event) => {
            const picture = event.currentTarget.files?.[0];
            if (!picture) return;
            void attempt(async () => {
              await coachApi.setRatingPhoto(repetition_id, aspect, picture);
              setKept(true);
              setShown(shown + 1);
            });
          }}
        />
      </label>
      {kept && (
        <button
          type="button"
          class="plain"
          onClick={() =>
            void attempt(async () => {
              await coachApi.deleteRatingPhoto(repetition_id, aspect);
              setKept(false);
            })
          }
        >
          {t('delete_photograph')}
        </button>
      )}
    </div>
  );
}

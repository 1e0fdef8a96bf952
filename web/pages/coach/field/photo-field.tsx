import { useEffect, useMemo } from 'preact/hooks';
import { fieldWords } from '../../../../shared/messages/en/view/field.ts';
import { phrasesOf } from '../../../app/language.ts';
import { FaultBox } from '../../../parts/fault-box.tsx';
import { keepPhoto, photoKey, refusedPhotos, waitingPhotos } from './photo-outbox.ts';

const t = phrasesOf('field', fieldWords);

interface PhotoFieldProps {
  repetition_id: number;
  aspect: string;
  /** The aspect in words. */
  name: string;
  /** One is stored already. */
  has: boolean;
}

/**
 * A photograph beside a rating, for what no sensor sees. It is kept with the repetition on the club's machine; without network it
 * waits on the device.
 */
export function PhotoField({ repetition_id, aspect, name, has }: PhotoFieldProps) {
  const key = photoKey({ repetition_id, aspect });
  const waiting = waitingPhotos.value.find((photo) => photoKey(photo) === key);
  const fault = refusedPhotos.value.get(key);
  const own = useObjectUrl(waiting?.picture ?? null);
  const shown = own ?? (has && !waiting ? `/api/coach/repetitions/${repetition_id}/ratings/${aspect}/photo` : null);
  const change = (picture: Blob | null) => void keepPhoto({ repetition_id, aspect, picture });
  return (
    <div class="field">
      {fault && <FaultBox fault={fault} />}
      {shown && <img class="rating-photo" alt={t('beside_the_rating_of', { aspect: name })} src={shown} />}
      {waiting && (
        <p class="small quiet" role="status">
          {t('photo_waits')}
        </p>
      )}
      <label class="field">
        <span>{shown ? t('another_photograph') : t('photograph')}</span>
        <input
          type="file"
          accept="image/jpeg,image/png,image/webp"
          capture="environment"
          onChange={(event) => {
            const picture = event.currentTarget.files?.[0];
            event.currentTarget.value = '';
            if (picture) change(picture);
          }}
        />
      </label>
      {shown && (
        <button type="button" class="plain" onClick={() => change(null)}>
          {t('delete_photograph')}
        </button>
      )}
    </div>
  );
}

/** An address for a picture of this device, as long as it is shown. */
function useObjectUrl(picture: Blob | null): string | null {
  const address = useMemo(() => picture && URL.createObjectURL(picture), [picture]);
  useEffect(
    () => () => {
      if (address) URL.revokeObjectURL(address);
    },
    [address],
  );
  return address;
}

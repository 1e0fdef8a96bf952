import { formatNumber } from '../../app/format.ts';
import { phrasesOf } from '../../app/language.ts';
import { filesWords } from '../../../shared/messages/en/view/files.ts';
import type { PreviewSensor } from '../../../shared/schemas/layout-preview.ts';
import { RADIANS_PER_DEGREE, STANDARD_GRAVITY_MPS2 } from '../../../shared/units.ts';

const t = phrasesOf('files', filesWords);

/** The signal in outline: how hard the sensor was shaken and how fast it turned, over the part that was read. */
export function SignalPicture({ sensor }: { sensor: PreviewSensor }) {
  const { acc_mps2, gyr_radps, duration_s } = sensor;
  return (
    <figure class="signal-picture">
      <Strip
        values={acc_mps2.map((value) => value && value / STANDARD_GRAVITY_MPS2)}
        name={t('shake')}
        unit="g"
        decimals={1}
      />
      {gyr_radps.length > 0 && (
        <Strip
          values={gyr_radps.map((value) => value && value / RADIANS_PER_DEGREE)}
          name={t('turn')}
          unit="deg/s"
          decimals={0}
        />
      )}
      <figcaption class="small quiet">
        {t('s_from_left_to_right', { duration_s: formatNumber(duration_s, 1) })}
      </figcaption>
    </figure>
  );
}

interface StripProps {
  values: (number | null)[];
  name: string;
  unit: string;
  decimals: number;
}

function Strip({ values, name, unit, decimals }: StripProps) {
  const most = Math.max(0, ...values.map((value) => value ?? 0));
  const height = (value: number) => (most > 0 ? (38 * value) / most : 0);
  const bars = values.map((value, at) => (value === null ? '' : `M${at + 0.5} 40V${(40 - height(value)).toFixed(1)}`));
  return (
    <>
      <div class="small">{t('up_to', { name, most: formatNumber(most, decimals), unit })}</div>
      <svg width="100%" height="40" viewBox={`0 0 ${values.length} 40`} preserveAspectRatio="none" aria-hidden="true">
        <path d={bars.join('')} />
      </svg>
    </>
  );
}

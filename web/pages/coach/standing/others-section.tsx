import './others.css';
import { athletesWords } from '../../../../shared/messages/en/view/athletes.ts';
import type { AthleteBesideOthers, BesideOthers } from '../../../../shared/schemas/coach/norms.ts';
import { formatDate, formatNumber } from '../../../app/format.ts';
import { phrasesOf } from '../../../app/language.ts';
import { useResource } from '../../../app/use-resource.ts';
import { coachPaths } from '../coach-api.ts';
import { displayQuantity, showQuantity, showValue } from '../quantity-text.ts';
import { OthersStrip } from './others-strip.tsx';

const t = phrasesOf('athletes', athletesWords);

/** Fewest contacts of the athlete's own that a band is shown first by. */
const ENOUGH_CONTACTS = 5;

/**
 * An athlete's own values beside bands of others alike, where the coach switched that on; nothing else. Of each quantity the band of the
 * fastest steps at full effort stands first, the others behind a word.
 */
export function OthersSection({ athlete_id }: { athlete_id: number }) {
  const { value } = useResource<AthleteBesideOthers>(coachPaths.others(athlete_id));
  if (!value?.norms?.shown || value.bands.length === 0) return null;
  const { norms, bands } = value;
  const quantities = [...new Set(bands.map(({ quantity }) => quantity))];
  const first = quantities.map((quantity) => foremost(bands.filter((band) => band.quantity === quantity)));
  const others = bands.filter((band) => !first.includes(band));
  return (
    <section aria-labelledby="others-like-this" class="others">
      <h2 id="others-like-this">{t('others_like_this')}</h2>
      <Bands bands={first} />
      <p class="small quiet">{t('others_legend')}</p>
      {others.length > 0 && (
        <details class="no-print">
          <summary>{t('other_speeds')}</summary>
          <Bands bands={others} />
        </details>
      )}
      <p>{t('norms_caution')}</p>
      <p class="small quiet break-anywhere">
        {t('norms_origin', {
          programme: norms.programme,
          day: formatDate(norms.published_utc),
          version: norms.version,
          key: norms.fingerprint,
        })}
      </p>
    </section>
  );
}

/** The fastest steps at the highest effort of which there are enough; else whatever there are most of. */
function foremost(bands: BesideOthers[]): BesideOthers {
  const enough = bands.filter(({ own_contacts }) => own_contacts >= ENOUGH_CONTACTS);
  if (enough.length === 0) return [...bands].sort((a, b) => b.own_contacts - a.own_contacts)[0];
  return [...enough].sort(
    (a, b) => b.band.effort_from - a.band.effort_from || b.band.speed_from_mps - a.band.speed_from_mps,
  )[0];
}

function Bands({ bands }: { bands: BesideOthers[] }) {
  return (
    <div class="others-bands">
      {bands.map((one) => (
        <Band key={`${one.quantity} ${one.band.effort_from} ${one.band.speed_from_mps}`} one={one} />
      ))}
    </div>
  );
}

function Band({ one }: { one: BesideOthers }) {
  const { quantity, band, own_mean, own_sd, own_contacts } = one;
  const { effort_from, effort_to, speed_from_mps } = band;
  const { factor, decimals } = displayQuantity(quantity);
  const spread = own_sd === null ? '' : ` ± ${formatNumber(own_sd * factor, decimals)}`;
  return (
    <article class="others-band">
      <h3>{displayQuantity(quantity).label}</h3>
      <p class="small quiet">
        {t('others_at', {
          effort:
            effort_to === null
              ? t('effort_from', { from: effort_from })
              : t('effort_between', { from: effort_from, to: effort_to }),
          from: formatNumber(speed_from_mps, 0),
          to: formatNumber(speed_from_mps + 1, 0),
        })}
      </p>
      <OthersStrip one={one} />
      <p>
        {t('own_of_contacts', {
          value: `${showValue(quantity, own_mean)}${spread}${unitOf(quantity)}`,
          n: own_contacts,
        })}
        <br />
        {t('others_value', {
          middle: showQuantity(quantity, band.p50),
          low: showValue(quantity, band.p05),
          high: showQuantity(quantity, band.p95),
          people: band.people,
        })}
      </p>
    </article>
  );
}

function unitOf(quantity: string): string {
  const { unit } = displayQuantity(quantity);
  return unit && ` ${unit}`;
}

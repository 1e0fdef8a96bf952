import { commonWords } from '../../../shared/messages/en/view/common.ts';
import { repetitionWords } from '../../../shared/messages/en/view/repetition.ts';
import { labelText, speech, phrasesOf } from '../../app/language.ts';
import { CONTACT_FIELDS } from '../../../shared/fields.ts';
import type { ContactQuantity, QuantityVerdict, RepetitionResult, SensorQuality } from '../../../shared/analysis.ts';
import type { RecordingLine } from '../../../shared/schemas/repetition.ts';
import type { Fitness } from '../../../shared/words.ts';
import { formatNumber } from '../../app/format.ts';
import { FitnessMark } from '../../parts/fitness-mark.tsx';
import { FindingGlyph } from './finding-picture.tsx';
import { findingsOf } from './quality-findings.ts';
import { wornFigures } from './worn-findings.ts';

const common = phrasesOf('common', commonWords);

const t = phrasesOf('repetition', repetitionWords);

interface QualityReportProps {
  recordings: RecordingLine[];
  quality: SensorQuality[];
  result: RepetitionResult;
}

/** How good each sensor's recording is, for what, and what to do about it. */
export function QualityReport({ recordings, quality, result }: QualityReportProps) {
  if (quality.length === 0) return null;
  return (
    <section class="no-print" aria-labelledby="quality-head">
      <h2 id="quality-head">{t('recording_quality')}</h2>
      <div class="sensors">
        {quality.map((sensor, index) => (
          <SensorCard key={index} sensor={sensor} recording={recordings[index]} result={result} />
        ))}
      </div>
    </section>
  );
}

/** The field's label; a verdict may also be about something that is no field, such as `angles`. */
function quantityWords(quantity: string): string {
  const field = CONTACT_FIELDS[quantity as ContactQuantity];
  if (field) return labelText(field.label);
  return quantity === 'angles' ? t('angles') : quantity.replaceAll('_', ' ');
}

const FITNESS_WORDS = {
  good: 'fit_good',
  'usable with wider uncertainty': 'fit_wider',
  'not measurable': 'fit_never',
} as const satisfies Record<Fitness, string>;

/** Verdicts that say the same are said once. */
function alike(verdicts: QuantityVerdict[]) {
  const groups = new Map<string, { fitness: Fitness; why: string; quantities: string[] }>();
  for (const { quantity, fitness, why: reason } of verdicts) {
    const why = speech.value.because(reason);
    const key = `${fitness} ${why}`;
    const group = groups.get(key) ?? { fitness, why, quantities: [] };
    group.quantities.push(quantity);
    groups.set(key, group);
  }
  return [...groups.values()];
}

interface SensorCardProps {
  sensor: SensorQuality;
  recording: RecordingLine | undefined;
  result: RepetitionResult;
}

function SensorCard({ sensor, recording, result }: SensorCardProps) {
  const name = sensor.side === 'unknown' ? t('sensor') : t(`${sensor.side}_${sensor.mounting}`);
  const offset = recording?.clock_offset_s ?? 0;
  return (
    <div class="sheet">
      <h3>{name}</h3>
      <ul class="findings">
        {findingsOf(sensor).map((finding) => (
          <li key={finding.what}>
            <FindingGlyph picture={finding.picture} />
            <div>
              {finding.what}
              {finding.todo && (
                <>
                  {' '}
                  <strong>{finding.todo}</strong>
                </>
              )}
            </div>
          </li>
        ))}
      </ul>
      <RecordingStrip sensor={sensor} from_s={result.start_s - offset} to_s={result.end_s - offset} />
      {sensor.verdicts.length > 0 && (
        <table class="verdicts fit-for">
          <caption>{t('fit_for')}</caption>
          <tbody>
            {alike(sensor.verdicts).map(({ fitness, why, quantities }) => (
              <tr key={quantities.join()}>
                <th scope="row">
                  <FitnessMark fitness={fitness} /> {quantities.map(quantityWords).join(', ')}
                </th>
                <td>
                  {t(FITNESS_WORDS[fitness])}
                  {why && <span class="quiet small"> {why}</span>}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      <details>
        <summary>{t('for_scientist')}</summary>
        <dl class="pairs">
          {figuresOf(sensor, recording).map(([term, text]) => (
            <>
              <dt>{term}</dt>
              <dd>{text}</dd>
            </>
          ))}
        </dl>
      </details>
    </div>
  );
}

/** The whole recording as a strip: the repetition dark, gaps cut out. */
function RecordingStrip({ sensor, from_s, to_s }: { sensor: SensorQuality; from_s: number; to_s: number }) {
  const duration = sensor.duration_s || 1;
  const percent = (seconds: number) => `${(Math.max(0, Math.min(1, seconds / duration)) * 100).toFixed(2)}%`;
  return (
    <figure class="strip">
      <svg width="100%" height="28" aria-hidden="true">
        <rect class="strip-rest" x="0" y="8" width="100%" height="12" />
        <rect class="strip-run" x={percent(from_s)} y="2" width={percent(to_s - from_s)} height="24" />
        {sensor.gaps.map((gap) => (
          <rect
            key={gap.start_s}
            class="strip-gap"
            x={percent(gap.start_s)}
            y="0"
            width={`max(3px, ${percent(gap.end_s - gap.start_s)})`}
            height="28"
          />
        ))}
      </svg>
      <figcaption class="small quiet">
        {t('recorded_strip', { duration_s: sensor.duration_s, from_s, to_s, gaps: sensor.gaps.length > 0 })}
      </figcaption>
    </figure>
  );
}

function figuresOf(sensor: SensorQuality, recording: RecordingLine | undefined): [string, string][] {
  const or = (value: number | null, decimals: number, unit: string) =>
    value === null ? t('fit_never') : `${formatNumber(value, decimals)} ${unit}`;
  const clock: [string, string][] = recording
    ? [
        [
          common('clock'),
          t('offset_s_ms_drift_ppm', {
            clock_offset_s: formatNumber(recording.clock_offset_s, 4),
            clock_offset_u_s: formatNumber(1.96 * recording.clock_offset_u_s * 1000, 1),
            clock_drift: formatNumber(recording.clock_drift * 1e6, 0),
          }),
        ],
      ]
    : [];
  return [
    [t('sampling_rate'), or(sensor.sampling_rate_hz, 2, 'Hz')],
    [t('jitter_sd'), or(sensor.jitter_ms, 3, 'ms')],
    [common('samples'), t('lost', { samples: sensor.samples, lost_samples: sensor.lost_samples })],
    [
      t('clipped_samples'),
      t('acceleration_rotation', {
        acc_clipped_samples: sensor.acc_clipped_samples,
        gyr_clipped_samples: sensor.gyr_clipped_samples,
      }),
    ],
    [t('contacts_with_clipping'), String(sensor.contacts_with_clipping)],
    [t('resting_norm'), or(sensor.resting_norm_mps2, 3, 'm/s²')],
    [t('rotation_bias'), or(sensor.gyr_bias_radps, 4, 'rad/s')],
    [t('acceleration_noise'), or(sensor.acc_noise_mps2, 3, 'm/s²')],
    [t('rotation_noise'), or(sensor.gyr_noise_radps, 4, 'rad/s')],
    [t('bandwidth_while_running'), or(sensor.bandwidth_hz, 0, 'Hz')],
    ...wornFigures(sensor),
    ...sensor.faults.map(speech.value.tell).map(({ code, message }): [string, string] => [code, message]),
    ...clock,
  ];
}

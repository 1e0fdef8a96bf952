import type { ContactQuantity, QuantitySummary, RepetitionResult } from '../../../shared/analysis.ts';
import type { ProfileBaseline } from '../../../shared/schemas/repetition.ts';
import { displayOf, formatNumber, formatQuantity } from '../../app/format.ts';
import { TIMING_METHOD_WORDS } from '../../app/describe.ts';
import type { TimingMethod } from '../../../shared/words.ts';
import { FigureTile } from '../../parts/figure-tile.tsx';
import { normalOf } from './normal-of.ts';

interface RepetitionFiguresProps {
  result: RepetitionResult;
  courseTime_s: number | null;
  timingMethod: TimingMethod | null;
  baseline: ProfileBaseline | null;
}

const SHOWN: ContactQuantity[] = ['contact_time_ms', 'flight_time_ms', 'step_rate_hz', 'step_length_m'];

/** Means at speed with their uncertainty, against what is normal for the athlete. */
export function RepetitionFigures({ result, courseTime_s, timingMethod, baseline }: RepetitionFiguresProps) {
  const { summary, reasons } = result;
  const atSpeed = hasAtSpeed(result);
  const means = atSpeed ? summary.at_speed : summary.all;
  const n = means.contact_time_ms?.n ?? means.step_rate_hz?.n ?? 0;
  return (
    <section aria-labelledby="figures-head">
      <h2 id="figures-head" class="visually-hidden">
        Figures
      </h2>
      <dl class="figures">
        {courseTime_s !== null && (
          <div class="figure-tile">
            <dt>time</dt>
            <dd>
              <span class="quantity-value">{courseTime_s.toFixed(2)}</span> <span class="quantity-unit">s</span>
              {timingMethod && <span class="figure-note">timed by {TIMING_METHOD_WORDS[timingMethod]}</span>}
            </dd>
          </div>
        )}
        {SHOWN.map((quantity) => (
          <FigureTile
            key={quantity}
            quantity={quantity}
            value={means[quantity]?.mean}
            u={means[quantity]?.mean_u}
            reason={means[quantity] ? undefined : reasonFor(result, quantity)}
            normal={atSpeed ? normalOf(baseline, quantity) : null}
          />
        ))}
        <FigureTile
          label="top speed"
          quantity="speed_mps"
          value={summary.speed_max_mps}
          u={summary.speed_max_mps_u}
          reason={reasons.speed_max_mps ?? reasonFor(result, 'speed_mps')}
          normal={normalOf(baseline, 'speed_max_mps')}
        />
        <SidesTile left={summary.left.contact_time_ms} right={summary.right.contact_time_ms} />
      </dl>
      <p class="small quiet">
        {atSpeed ? `Means over ${n} contacts at speed` : `Means over all ${n} contacts`}; ± is the 95 % range of
        measurement and step-to-step scatter. {baselineWords(baseline)}
      </p>
    </section>
  );
}

/** True when the repetition reached a stretch at speed. */
export function hasAtSpeed(result: RepetitionResult): boolean {
  return Object.values(result.summary.at_speed).some((summary) => summary && summary.n > 0);
}

export function reasonFor(result: RepetitionResult, quantity: ContactQuantity): string | undefined {
  return result.reasons[quantity] ?? result.contacts.find((contact) => contact.reasons[quantity])?.reasons[quantity];
}

function baselineWords(baseline: ProfileBaseline | null): string {
  if (!baseline || baseline.n === 0) {
    return 'No baseline yet: it is made of earlier repetitions at the same effort and course.';
  }
  const rests = `Normal rests on ${baseline.n} earlier ${baseline.n === 1 ? 'repetition' : 'repetitions'} at the same effort and course`;
  return baseline.provisional ? `${rests}: provisional until there are six.` : `${rests}.`;
}

/** Left against right, each with its scatter between contacts: a difference means little beside it. */
function SidesTile({ left, right }: { left?: QuantitySummary; right?: QuantitySummary }) {
  const { decimals } = displayOf('contact_time_ms');
  if (!left && !right) return null;
  return (
    <div class="figure-tile wide">
      <dt>contact time, left and right</dt>
      <dd>
        <span class="sides">
          <span class="sides-one left">L {left ? formatNumber(left.mean, decimals) : '–'}</span>
          <span class="sides-one right">R {right ? formatNumber(right.mean, decimals) : '–'}</span>
          <span class="quantity-unit">ms</span>
        </span>
        {left && right ? (
          <span class="figure-note">
            {sidesWords(left, right)}; step to step ±{formatNumber(Math.max(left.sd, right.sd), decimals)} ms
          </span>
        ) : (
          <span class="figure-note">one foot measured</span>
        )}
      </dd>
    </div>
  );
}

function sidesWords(left: QuantitySummary, right: QuantitySummary): string {
  const difference = left.mean - right.mean;
  const u = Math.hypot(left.mean_u, right.mean_u);
  const size = formatQuantity('contact_time_ms', Math.abs(difference), u);
  if (Math.abs(difference) < 1.96 * u) return `no difference beyond chance (${size})`;
  return `${difference > 0 ? 'left' : 'right'} longer by ${size}`;
}

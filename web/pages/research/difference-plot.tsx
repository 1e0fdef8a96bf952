import { formatNumber } from '../../app/format.ts';
import { labelText, phrasesOf } from '../../app/language.ts';
import { researchWords } from '../../../shared/messages/en/view/research.ts';
import type { AgreementPair, QuantityAgreement } from '../../../shared/schemas/agreement.ts';

const t = phrasesOf('research', researchWords);

const WIDTH = 640;
const HEIGHT = 260;
const LEFT = 52;
const BOTTOM = 34;

/** Differences over means, with bias and limits of agreement (Bland and Altman 1986). */
export function DifferencePlot({ q, pairs }: { q: QuantityAgreement; pairs: AgreementPair[] }) {
  const instants = q.quantity === 'touchdown' || q.quantity === 'toe-off';
  const means = pairs.map((p) => (p.ours + p.reference) / (instants ? 2000 : 2));
  const differences = pairs.map((p) => p.ours - p.reference);
  const reach =
    1.05 * Math.max(1e-9, ...differences.map(Math.abs), Math.abs(q.lower_limit.value), Math.abs(q.upper_limit.value));
  const [low, high] = [Math.min(...means), Math.max(...means)];
  const x = (value: number) => LEFT + 8 + ((value - low) / Math.max(high - low, 1e-9)) * (WIDTH - LEFT - 16);
  const y = (value: number) => ((HEIGHT - BOTTOM) * (1 - value / reach)) / 2;
  const line = (value: number, dashed: boolean) => (
    <line
      x1={LEFT}
      x2={WIDTH}
      y1={y(value)}
      y2={y(value)}
      stroke="currentColor"
      stroke-width={1.5}
      stroke-dasharray={dashed ? '6 4' : undefined}
    />
  );
  const digits = q.unit === 'm' ? 2 : 0;
  return (
    <figure class="plot">
      <svg
        viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
        role="img"
        aria-label={t('differences_from_the_reference_over', { quantity: labelText(q.quantity) })}
      >
        <rect
          x={LEFT}
          y={0}
          width={WIDTH - LEFT}
          height={HEIGHT - BOTTOM}
          fill="none"
          stroke="currentColor"
          stroke-opacity={0.35}
        />
        {pairs.map((p, k) =>
          p.side === 'right' ? (
            <rect
              key={k}
              x={x(means[k]) - 2.5}
              y={y(differences[k]) - 2.5}
              width={5}
              height={5}
              fill="none"
              stroke="var(--right)"
            />
          ) : (
            <circle key={k} cx={x(means[k])} cy={y(differences[k])} r={2.8} fill="none" stroke="var(--left)" />
          ),
        )}
        {line(q.bias.value, false)}
        {line(q.lower_limit.value, true)}
        {line(q.upper_limit.value, true)}
        {[q.lower_limit.value, q.bias.value, q.upper_limit.value].map((value) => (
          <text key={value} x={LEFT - 6} y={y(value) + 4} text-anchor="end" font-size={12} fill="currentColor">
            {formatNumber(value, q.unit === 'm' ? 3 : 1)}
          </text>
        ))}
        {[low, high].map((value, k) => (
          <text
            key={k}
            x={x(value)}
            y={HEIGHT - 16}
            text-anchor={k === 0 ? 'start' : 'end'}
            font-size={12}
            fill="currentColor"
          >
            {formatNumber(value, digits)}
          </text>
        ))}
        <text x={(LEFT + WIDTH) / 2} y={HEIGHT - 2} text-anchor="middle" font-size={12} fill="currentColor">
          {instants ? t('instant_in_the_recording_s') : t('mean_of_both', { unit: q.unit })}
        </text>
      </svg>
      <figcaption class="quiet small">{t('line_bias_dashes_limits_of')}</figcaption>
    </figure>
  );
}

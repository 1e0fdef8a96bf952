import type { TechniquePoint } from '../../../../shared/schemas/coach/technique-point.ts';

/** What coaches usually try, and what the sensor cannot see. */
export function PointText({ point, plain = false }: { point: TechniquePoint; plain?: boolean }) {
  return (
    <section class={plain ? undefined : 'sheet'}>
      <h3>What coaches usually try</h3>
      <ul>
        {point.coaches_try.map((text) => (
          <li key={text}>{text}</li>
        ))}
      </ul>
      <h3>What the sensor cannot see</h3>
      <p>{point.sensor_cannot_see}</p>
      <p class="quiet small">Source: {point.source}.</p>
    </section>
  );
}

import type { Focus } from '../../../../shared/schemas/coach/focus.ts';

/** What coaches usually try, and what the sensor cannot see. */
export function FocusText({ focus, plain = false }: { focus: Focus; plain?: boolean }) {
  return (
    <section class={plain ? undefined : 'sheet'}>
      <h3>What coaches usually try</h3>
      <ul>
        {focus.coaches_try.map((text) => (
          <li key={text}>{text}</li>
        ))}
      </ul>
      <h3>What the sensor cannot see</h3>
      <p>{focus.sensor_cannot_see}</p>
      <p class="quiet small">Source: {focus.source}.</p>
    </section>
  );
}

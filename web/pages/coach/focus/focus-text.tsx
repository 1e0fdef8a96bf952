import type { Focus } from '../../../../shared/schemas/coach/focus.ts';

/** The coach's cue, what the sensor cannot see, and where the list has it from. */
export function FocusText({ focus }: { focus: Focus }) {
  return (
    <section class="sheet">
      <h3>Cue</h3>
      <p>
        {focus.cue === '' ? 'No cue written yet: write your own words, here or with the athlete.' : `“${focus.cue}”`}
      </p>
      {focus.sensor_cannot_see !== '' && (
        <>
          <h3>What the sensor cannot see</h3>
          <p>{focus.sensor_cannot_see}</p>
        </>
      )}
      <p class="quiet small">{focus.coach_focus_id === null ? `Source: ${focus.source}.` : 'Your own focus.'}</p>
    </section>
  );
}

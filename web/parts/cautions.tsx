/** The cautions that stand wherever advice is shown. */
export function Cautions() {
  return (
    <aside class="cautions" aria-label="Cautions">
      <h2>Cautions</h2>
      <p>
        Cinderlane measures; it does not diagnose. A longer contact or a difference between left and right is no sign of
        injury by itself.
      </p>
      <p>
        <strong>
          Sudden pain in the back of the thigh, hip or groin, a pop, a limp: stop, tell an adult, see a clinician.
        </strong>{' '}
        Minors train under a responsible adult. Local rules and licensed practice come first.
      </p>
    </aside>
  );
}

/** How to read the field screen. */
export function FieldHelp() {
  return (
    <details class="more no-print">
      <summary>How to read this</summary>
      <ul>
        <li>Whoever just ran shows by itself. A tap on a name shows someone else until the next result comes.</li>
        <li>
          On each line: the grey bar is normal for this athlete at this effort and course, rings are earlier today, the
          diamond is this repetition, the black stroke through it its measuring error (95 %).
        </li>
        <li>
          <strong>Beyond chance</strong> means: further from normal than this athlete varies by themselves, whichever
          way. It says nothing about good or bad.
        </li>
        <li>
          Fewer than six like repetitions make a provisional normal, with the variation published for others. Two or
          three repetitions in a row are judged together and show smaller changes.
        </li>
        <li>Without network the last results stay, with their age; ratings wait on this device.</li>
      </ul>
    </details>
  );
}

interface EndingNoticeProps {
  /** Packets that wait for room on the disk. */
  packets: number;
  busy: boolean;
  onGiveUp: () => void;
}

/** The recording has ended, but its last packets found no room: nothing is lost while the program runs, and the coach decides. */
export function EndingNotice({ packets, busy, onGiveUp }: EndingNoticeProps) {
  return (
    <section class="sheet" role="alert" aria-label="Packets that wait for room on the disk">
      <p>
        <strong>The disk is full.</strong> The sensors are stopped; {packets} packets wait in memory and are written as
        soon as there is room. Free some space, and leave the program running until then.
      </p>
      <button type="button" disabled={busy} onClick={onGiveUp}>
        Give up what waits
      </button>
    </section>
  );
}

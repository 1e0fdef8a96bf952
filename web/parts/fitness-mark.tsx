import type { Fitness } from '../../shared/words.ts';

/** Full, half, empty: told apart by shape, not by colour. */
export function FitnessMark({ fitness }: { fitness: Fitness }) {
  return (
    <svg class="fitness" width="16" height="16" viewBox="0 0 16 16" aria-hidden="true">
      <circle cx="8" cy="8" r="6.5" />
      {fitness === 'good' && <circle class="full" cx="8" cy="8" r="6.5" />}
      {fitness === 'usable with wider uncertainty' && <path class="full" d="M8 1.5A6.5 6.5 0 0 0 8 14.5Z" />}
      {fitness === 'not measurable' && <path d="M3.5 3.5L12.5 12.5" />}
    </svg>
  );
}

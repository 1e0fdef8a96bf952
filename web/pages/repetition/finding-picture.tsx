import type { FindingPicture } from './finding.ts';

const WAVE = 'M2 24C6 24 7 8 11 8S16 36 20 36 25 8 29 8 34 36 38 36 43 8 47 8 52 24 56 24';

/** A small picture of what happened to a signal. */
export function FindingGlyph({ picture }: { picture: FindingPicture }) {
  return (
    <svg class="finding-glyph" width="58" height="44" viewBox="0 0 58 44" aria-hidden="true">
      {picture === 'even' && <path d={WAVE} />}
      {picture === 'gap' && (
        <>
          <path d="M2 24C6 24 7 8 11 8S16 36 20 36M38 36C42 36 43 8 47 8S52 24 56 24" />
          <path class="absent" d="M22 4V40M36 4V40" />
        </>
      )}
      {picture === 'flat-top' && (
        <>
          <path d="M2 24L8 12H15L21 36L26 12H33L39 36L44 12H51L56 24" />
          <path class="limit" d="M0 11H58" />
        </>
      )}
      {picture === 'coarse' && (
        <>
          <path class="faint" d={WAVE} />
          {[
            [5, 21],
            [18, 34],
            [31, 11],
            [44, 15],
            [54, 24],
          ].map(([cx, cy]) => (
            <circle key={cx} cx={cx} cy={cy} r="3" />
          ))}
        </>
      )}
      {picture === 'off-level' && (
        <>
          <path class="limit" d="M2 18H56" />
          <path d="M2 31H56M29 21V28M26 25L29 28.500L32 25" />
        </>
      )}
      {picture === 'mirrored' && (
        <>
          <path class="limit" d="M29 3V41" />
          <path d="M22 22H5M10 16L4 22L10 28M36 22H53M48 16L54 22L48 28" />
        </>
      )}
      {picture === 'other-place' && (
        <>
          <path d="M22 2L24 30L22 36L44 38L40 32L32 30L31 2" />
          <circle cx="27" cy="14" r="4" />
          <path class="absent" d="M34 30H42V36H34Z" />
        </>
      )}
      {picture === 'swapped' && <path d="M8 12H46M40 6L47 12L40 18M50 32H12M18 26L11 32L18 38" />}
      {picture === 'ringing' && <path d="M2 24H10L13 5L18 40L23 10L28 34L33 17L38 29L43 21L48 26L56 24" />}
      {picture === 'turned' && (
        <>
          <path class="absent" d="M18 14H36V30H18Z" />
          <path d="M27 9L40 22L27 35L14 22Z" />
          <path d="M44 10A20 20 0 0 1 47 30M42 27L47 31L51 25" />
        </>
      )}
      {picture === 'noise' && (
        <path d="M2 24L6 14L9 30L12 9L16 35L19 18L23 28L27 7L31 37L34 16L38 29L42 11L46 33L50 20L56 25" />
      )}
    </svg>
  );
}

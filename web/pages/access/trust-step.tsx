export type TrustPicture = 'warning' | 'compare' | 'install' | 'padlock';

/** One step with its drawing; the drawing repeats the words and is left out for screen readers. */
export function TrustStep({ picture, title, text }: { picture: TrustPicture; title: string; text: string }) {
  return (
    <li class="trust-step">
      <svg viewBox="0 0 120 160" aria-hidden="true" class="trust-picture">
        <rect x="10" y="4" width="100" height="152" rx="12" />
        <line x1="48" y1="12" x2="72" y2="12" />
        {DRAWINGS[picture]}
      </svg>
      <div>
        <h2>{title}</h2>
        <p>{text}</p>
      </div>
    </li>
  );
}

const DRAWINGS = {
  warning: (
    <>
      <path d="M60 38 L88 86 L32 86 Z" />
      <line x1="60" y1="54" x2="60" y2="70" />
      <circle cx="60" cy="78" r="1.5" />
      <rect x="28" y="104" width="64" height="16" rx="4" />
      <line x1="36" y1="134" x2="84" y2="134" class="trust-chosen" />
    </>
  ),
  compare: (
    <>
      <rect x="26" y="30" width="68" height="40" rx="4" />
      <path d="M34 42 h52 M34 50 h52 M34 58 h36" />
      <path d="M44 82 h32 M44 90 h32" class="trust-chosen" />
      <rect x="26" y="102" width="68" height="40" rx="4" />
      <path d="M34 114 h52 M34 122 h52 M34 130 h36" />
    </>
  ),
  install: (
    <>
      <path d="M28 34 h64 M28 52 h64 M28 70 h64" />
      <rect x="24" y="84" width="72" height="24" rx="6" class="trust-chosen" />
      <path d="M60 90 v12 M54 97 l6 6 l6 -6" />
      <path d="M28 124 h64" />
    </>
  ),
  padlock: (
    <>
      <rect x="26" y="28" width="68" height="18" rx="9" />
      <path d="M36 38 v-3 a4 4 0 0 1 8 0 v3" class="trust-chosen" />
      <rect x="34" y="36" width="12" height="7" class="trust-chosen" />
      <path d="M30 72 h60 M30 86 h46 M30 100 h54" />
      <path d="M46 124 l10 10 l20 -20" class="trust-chosen" />
    </>
  ),
} satisfies Record<TrustPicture, unknown>;

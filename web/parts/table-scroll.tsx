import type { ComponentChildren, Ref } from 'preact';

interface TableScrollProps {
  /** Names the scrolling place for screen readers. */
  label: string;
  scroller?: Ref<HTMLElement>;
  children: ComponentChildren;
}

/** Lets a wide or long table scroll in its own place, by touch and by keyboard, under a head that stays. */
export function TableScroll({ label, scroller, children }: TableScrollProps) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard (WCAG 2.1.1)
    <section class="table-scroll" ref={scroller} tabIndex={0} aria-label={label}>
      {children}
    </section>
  );
}

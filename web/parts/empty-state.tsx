import type { ComponentChildren } from 'preact';

/** Where there is nothing yet: says what will be here and how it gets here. */
export function EmptyState({ title, children }: { title: string; children: ComponentChildren }) {
  return (
    <section class="empty">
      <h2>{title}</h2>
      {children}
    </section>
  );
}

import { computed, effect, signal } from '@preact/signals';
import { preferences } from './preferences.ts';

const dark = matchMedia('(prefers-color-scheme: dark)');
const deviceIsDark = signal(dark.matches);
dark.addEventListener('change', () => {
  deviceIsDark.value = dark.matches;
});

/** The theme drawn now. What paints by itself (a canvas) reads it, so that it is painted anew when it changes. */
export const theme = computed<'light' | 'dark'>(() => {
  const { look } = preferences.value;
  return look === 'device' ? (deviceIsDark.value ? 'dark' : 'light') : look;
});

/** Keeps the document in the chosen theme from now on. */
export function startTheme(): void {
  effect(() => {
    document.documentElement.dataset.theme = theme.value;
    const paper = getComputedStyle(document.documentElement).getPropertyValue('--paper').trim();
    document.querySelector('meta[name="theme-color"]')?.setAttribute('content', paper);
  });
}

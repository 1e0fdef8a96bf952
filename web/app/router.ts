import type { PageTitle } from './page-title.ts';
import { computed, signal } from '@preact/signals';
import type { ComponentType } from 'preact';

/** What every page receives. */
export interface PageProps {
  /** The `:name` parts of the path, decoded. */
  params: Record<string, string>;
  /** What follows `?` in the hash. */
  query: URLSearchParams;
}

export interface Route {
  /** Hash path; `:name` parts arrive as `params.name`. */
  path: string;
  /** Document title and name read out on arrival. */
  title: PageTitle;
  /** Shown in the navigation: in the bar always, in the bar of a wide screen only, or behind 'More' always. */
  nav?: { label: PageTitle; place: 'bar' | 'wide' | 'more' };
  /** Path of the entry in the navigation that a page without its own belongs to. */
  under?: string;
  /** Fetched when first opened, so that the first view stays small. */
  page: () => Promise<{ default: ComponentType<PageProps> }>;
}

export interface Place extends PageProps {
  route: Route | null;
  path: string;
}

/** The view's pages, and where `#/` leads. */
export interface Routes {
  routes: readonly Route[];
  home: string;
}

const known = signal<Routes>({ routes: [], home: '/' });

/** Says which pages there are; pages themselves go by paths, so that none of them need know the others. */
export function setRoutes(routes: readonly Route[], home: string): void {
  known.value = { routes, home };
}

/** The pages of this server, in the order of the navigation. */
export const pages = computed(() => known.value.routes);

/** Whether this server has a page of that path. */
export function isPage(path: string): boolean {
  return known.value.routes.some((route) => route.path === path);
}

/** Finds the route of a hash such as `#/sessions/12?by=distance`. */
function matchHash(hash: string, { routes, home }: Routes): Place {
  const [rawPath, rawQuery = ''] = hash.replace(/^#/, '').split('?', 2);
  const path = rawPath === '' || rawPath === '/' ? home : rawPath;
  const query = new URLSearchParams(rawQuery);
  const parts = path.split('/').filter(Boolean);
  for (const route of routes) {
    const wanted = route.path.split('/').filter(Boolean);
    if (wanted.length !== parts.length) continue;
    const params: Record<string, string> = {};
    const fits = wanted.every((part, index) => {
      if (!part.startsWith(':')) return part === parts[index];
      params[part.slice(1)] = decodeURIComponent(parts[index]);
      return true;
    });
    if (fits) return { route, path, params, query };
  }
  return { route: null, path, params: {}, query };
}

const hash = signal(window.location.hash);
window.addEventListener('hashchange', () => {
  hash.value = window.location.hash;
});

/** Where the user is now. */
export const place = computed(() => matchHash(hash.value, known.value));

/** Goes to a hash path such as `/sessions/12`. */
export function go(path: string): void {
  window.location.hash = path;
}

/** Changes one part of the query in place (no new history entry), so that a view can be linked to and reloaded. */
export function setQuery(name: string, value: string | null): void {
  const { path, query } = place.peek();
  const next = new URLSearchParams(query);
  if (value === null) next.delete(name);
  else next.set(name, value);
  const text = next.toString();
  history.replaceState(null, '', `#${path}${text ? `?${text}` : ''}`);
  hash.value = window.location.hash;
}

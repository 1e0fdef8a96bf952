import type { Route } from './app/router.ts';

/** Pages of a programme's archive, one line a page; those of devices are the club's. */
export const ARCHIVE_ROUTES: Route[] = [
  {
    path: '/archive',
    title: 'Archive',
    nav: { label: 'Archive', place: 'bar' },
    page: () => import('./pages/archive/archive-page.tsx'),
  },
  {
    path: '/archive/runs/:run_id',
    title: 'Run',
    under: '/archive',
    page: () => import('./pages/archive/run-page.tsx'),
  },
  {
    path: '/devices',
    title: 'Devices',
    nav: { label: 'Devices', place: 'bar' },
    page: () => import('./pages/access/devices-page.tsx'),
  },
  {
    path: '/settings',
    title: 'Look and language',
    nav: { label: 'Look and language', place: 'more' },
    page: () => import('./pages/archive/look-page.tsx'),
  },
  { path: '/pair', title: 'Pair this device', page: () => import('./pages/access/pair-page.tsx') },
  { path: '/trust', title: 'Trust', under: '/devices', page: () => import('./pages/access/trust-page.tsx') },
];

/** Where `#/` leads. */
export const ARCHIVE_HOME = '/archive';

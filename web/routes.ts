import type { Route } from './app/router.ts';

/** Every page of the view, one line a page. Navigation follows this order. */
export const ROUTES: Route[] = [
  {
    path: '/sessions',
    title: 'Sessions',
    nav: { label: 'Sessions', place: 'bar' },
    page: () => import('./pages/sessions/sessions-page.tsx'),
  },
  { path: '/sessions/:session_id', title: 'Session', page: () => import('./pages/session/session-page.tsx') },
  {
    path: '/repetitions/:repetition_id',
    title: 'Repetition',
    under: '/sessions',
    page: () => import('./pages/repetition/repetition-page.tsx'),
  },
  {
    path: '/repetitions/:repetition_id/film',
    title: 'Film',
    under: '/sessions',
    page: () => import('./pages/coach/film/film-page.tsx'),
  },
  {
    path: '/compare',
    title: 'Compare',
    nav: { label: 'Compare', place: 'more' },
    page: () => import('./pages/coach/compare/compare-page.tsx'),
  },
  {
    path: '/live',
    title: 'Live',
    nav: { label: 'Live', place: 'bar' },
    page: () => import('./pages/live/live-page.tsx'),
  },
  {
    path: '/captures',
    title: 'Captures',
    nav: { label: 'Captures', place: 'more' },
    page: () => import('./pages/captures/captures-page.tsx'),
  },
  {
    path: '/describe',
    title: 'Describe a sensor',
    nav: { label: 'Describe a sensor', place: 'more' },
    page: () => import('./pages/describe/describe-page.tsx'),
  },
  {
    path: '/files',
    title: 'Files in',
    nav: { label: 'Files in', place: 'wide' },
    page: () => import('./pages/files/files-page.tsx'),
  },
  {
    path: '/field',
    title: 'Field',
    nav: { label: 'Field', place: 'bar' },
    page: () => import('./pages/coach/field/field-home-page.tsx'),
  },
  {
    path: '/plan',
    title: 'New plan',
    nav: { label: 'Plan', place: 'more' },
    page: () => import('./pages/coach/plan/new-plan-page.tsx'),
  },
  { path: '/plan/:session_id', title: 'Plan', page: () => import('./pages/coach/plan/plan-page.tsx') },
  { path: '/field/:session_id', title: 'Field', page: () => import('./pages/coach/field/field-page.tsx') },
  {
    path: '/athletes',
    title: 'Athletes',
    nav: { label: 'Athletes', place: 'bar' },
    page: () => import('./pages/coach/standing/athletes-page.tsx'),
  },
  { path: '/athletes/:athlete_id', title: 'Athlete', page: () => import('./pages/coach/standing/athlete-page.tsx') },
  {
    path: '/athletes/:athlete_id/person',
    title: 'Person',
    page: () => import('./pages/coach/athletes/person-page.tsx'),
  },
  {
    path: '/athletes/:athlete_id/course',
    title: 'Over time',
    page: () => import('./pages/coach/course/course-page.tsx'),
  },
  {
    path: '/athletes/:athlete_id/focuses/:focus',
    title: 'Focus',
    page: () => import('./pages/coach/focus/focus-page.tsx'),
  },
  {
    path: '/focuses',
    title: 'Focuses',
    nav: { label: 'Focuses', place: 'more' },
    page: () => import('./pages/coach/focus/focuses-page.tsx'),
  },
  {
    path: '/sessions/:session_id/fatigue',
    title: 'Through the session',
    page: () => import('./pages/coach/course/fatigue-page.tsx'),
  },
  {
    path: '/reports/repetition/:repetition_id',
    title: 'Report',
    page: () => import('./pages/coach/reports/report-page.tsx'),
  },
  {
    path: '/reports/session/:session_id/:athlete_id',
    title: 'Report',
    page: () => import('./pages/coach/reports/report-page.tsx'),
  },
  {
    path: '/reports/month/:athlete_id',
    title: 'Report',
    page: () => import('./pages/coach/reports/report-page.tsx'),
  },
  {
    path: '/reports/month/:athlete_id/:month',
    title: 'Report',
    page: () => import('./pages/coach/reports/report-page.tsx'),
  },
  {
    path: '/athletes/:athlete_id/tests',
    title: 'Sprint tests',
    page: () => import('./pages/coach/tests/tests-page.tsx'),
  },
  {
    path: '/athletes/:athlete_id/strength',
    title: 'Strength',
    page: () => import('./pages/coach/tests/strength-page.tsx'),
  },
  {
    path: '/research',
    title: 'Research',
    nav: { label: 'Research', place: 'more' },
    page: () => import('./pages/research/research-page.tsx'),
  },
  {
    path: '/agreement',
    title: 'Agreement',
    under: '/research',
    page: () => import('./pages/research/agreement-page.tsx'),
  },
  {
    path: '/layouts',
    title: 'File layouts',
    nav: { label: 'File layouts', place: 'more' },
    page: () => import('./pages/layouts/layouts-page.tsx'),
  },
  {
    path: '/devices',
    title: 'Devices',
    nav: { label: 'Devices', place: 'more' },
    page: () => import('./pages/access/devices-page.tsx'),
  },
  { path: '/pair', title: 'Pair this device', page: () => import('./pages/access/pair-page.tsx') },
  { path: '/trust', title: 'Trust', under: '/devices', page: () => import('./pages/access/trust-page.tsx') },
  {
    path: '/settings',
    title: 'Units and help',
    nav: { label: 'Units, help', place: 'more' },
    page: () => import('./pages/settings/settings-page.tsx'),
  },
];

/** Where `#/` leads. */
export const HOME = '/sessions';

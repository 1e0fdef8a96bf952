import type { ApiRoutes } from '../../http/context.ts';
import { coachAthleteRoutes } from './athletes.ts';
import { focusRoutes } from './focuses.ts';
import { normsRoutes } from './norms.ts';
import { ratingRoutes } from './ratings.ts';
import { retentionRoutes } from './retention.ts';
import { reportRoutes } from './reports.ts';
import { coachSessionRoutes } from './sessions.ts';
import { coachSettingsRoutes } from './settings.ts';
import { sprintTestRoutes } from './sprint-tests.ts';
import { standingRoutes } from './standing.ts';

/** Every route of the coach's part, under /api/coach. */
export const coachRoutes: ApiRoutes = async (app, context) => {
  await app.register(coachSettingsRoutes, context);
  await app.register(coachAthleteRoutes, context);
  await app.register(focusRoutes, context);
  await app.register(coachSessionRoutes, context);
  await app.register(ratingRoutes, context);
  await app.register(sprintTestRoutes, context);
  await app.register(standingRoutes, context);
  await app.register(reportRoutes, context);
  await app.register(retentionRoutes, context);
  await app.register(normsRoutes, context);
};

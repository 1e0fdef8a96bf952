import { accessWords as access } from './view/access.ts';
import { archiveWords as archive } from './view/archive.ts';
import { athletesWords as athletes } from './view/athletes.ts';
import { commonWords as common } from './view/common.ts';
import { compareWords as compare } from './view/compare.ts';
import { courseWords as course } from './view/course.ts';
import { describeWords as describe } from './view/describe.ts';
import { fieldWords as field } from './view/field.ts';
import { filmWords as film } from './view/film.ts';
import { filesWords as files } from './view/files.ts';
import { liveWords as live } from './view/live.ts';
import { planWords as plan } from './view/plan.ts';
import { repetitionWords as repetition } from './view/repetition.ts';
import { researchWords as research } from './view/research.ts';
import { sessionWords as session } from './view/session.ts';
import { settingsWords as settings } from './view/settings.ts';
import { testsWords as tests } from './view/tests.ts';

/** Every phrase of the view in English, by room. For types and tests; a page imports its own room alone. */
export const VIEW_EN = {
  access,
  archive,
  athletes,
  common,
  compare,
  course,
  describe,
  field,
  film,
  files,
  live,
  plan,
  repetition,
  research,
  session,
  settings,
  tests,
};

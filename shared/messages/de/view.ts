import type { ViewWords } from '../view-words.ts';
import { optionFaults_de } from './faults/options.ts';
import { viewFaults_de } from './faults/view.ts';
import { QUANTITIES_DE } from './quantities.ts';
import { accessWords_de as access } from './view/access.ts';
import { archiveWords_de as archive } from './view/archive.ts';
import { athletesWords_de as athletes } from './view/athletes.ts';
import { commonWords_de as common } from './view/common.ts';
import { compareWords_de as compare } from './view/compare.ts';
import { courseWords_de as course } from './view/course.ts';
import { describeWords_de as describe } from './view/describe.ts';
import { fieldWords_de as field } from './view/field.ts';
import { filmWords_de as film } from './view/film.ts';
import { filesWords_de as files } from './view/files.ts';
import { liveWords_de as live } from './view/live.ts';
import { planWords_de as plan } from './view/plan.ts';
import { repetitionWords_de as repetition } from './view/repetition.ts';
import { researchWords_de as research } from './view/research.ts';
import { sessionWords_de as session } from './view/session.ts';
import { settingsWords_de as settings } from './view/settings.ts';
import { testsWords_de as tests } from './view/tests.ts';

/** Everything the view says in German; one file, fetched when German is spoken. */
export const VIEW_DE: ViewWords = {
  phrases: {
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
  },
  faults: { ...viewFaults_de, ...optionFaults_de },
  quantities: QUANTITIES_DE,
};

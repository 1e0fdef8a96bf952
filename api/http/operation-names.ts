import { capital } from '../../shared/capital.ts';

/** What an operation of the API is called by programs, and what it does in a line. */
export interface OperationName {
  id: string;
  summary: string;
}

/** Where method and path do not say it all. Paths as the documentation writes them, without /api. */
const OWN: Record<string, [id: string, summary: string]> = {
  'GET /health': ['getHealth', 'Whether the server runs, its version, and what it needs'],
  'GET /access/me': ['getOwnAccess', 'What this device may do'],
  'POST /access/codes': ['createPairingCode', 'Makes a code by which a device is paired'],
  'POST /access/pair': ['pairDevice', 'Pairs a device by its code'],
  'POST /access/confirm': ['confirmDevice', 'Confirms a device by a fresh code, for what needs one'],
  'POST /access/leave': ['leaveDevice', 'Ends the pairing of this device'],
  'GET /access/audit': ['listAccessAudit', 'Lists who did what, the latest first'],
  'GET /access/authority.crt': ['getAuthorityCertificate', 'Certificate of the authority that --lan made'],
  'POST /imports': [
    'uploadImport',
    'Uploads the files of one repetition, or of several in one recording, and analyses them',
  ],
  'GET /imports/{import_id}/files/{side}': ['getImportFile', 'One file of an import exactly as it came'],
  'GET /imports/{import_id}/rejected.csv': ['getRejectedRows', 'Rows of an import that were set aside, as CSV'],
  'POST /imports/{import_id}/layout': ['keepImportLayout', 'Keeps the layout that an import was read with'],
  'POST /timings': ['uploadTimings', 'Uploads times of gates, splits and hands as CSV'],
  'GET /research-consents': ['listResearchConsents', 'Lists who agreed to use in research'],
  'PUT /athletes/{athlete_id}/research-consent': [
    'setResearchConsent',
    'Records what an athlete said about use in research',
  ],
  'GET /exports/{export_id}/archive': ['getExportArchive', 'Files of an export as a zip'],
  'POST /exports': ['createExport', 'Makes an export for research and records it'],
  'POST /agreement': ['compareWithReference', 'Compares contacts with a reference system'],
  'POST /agreement/report': ['createAgreementReport', 'The comparison as a PDF or a zip of tables'],
  'POST /repeatability': ['studyRepeatability', 'How repeatable a quantity is from session to session'],
  'POST /layouts/preview': ['previewLayout', 'What the beginning of a file is taken for, and why'],
  'GET /archive': ['getArchive', 'What an archive holds, by club'],
  'GET /archive/work': ['getArchiveWork', 'Who works for an archive, and what was asked for'],
  'POST /archive/runs': ['startArchiveRun', 'Gives workers a selection to analyse again'],
  'GET /repetitions/{repetition_id}/steps.csv': ['getRepetitionContacts', 'One row a contact of a repetition, as CSV'],
  'GET /repetitions/{repetition_id}/figure': [
    'getRepetitionFigure',
    'Its stride profile as SVG, PDF, or the numbers behind it',
  ],
  'GET /repetitions/{repetition_id}/profile': [
    'getStrideProfile',
    'Contacts of a repetition with what is normal for the athlete',
  ],
  'GET /repetitions/{repetition_id}/signal': ['getSignal', "One side's signal over a window"],
  'POST /repetitions/{repetition_id}/analyses': [
    'analyseRepetition',
    'Analyses the stored recordings of a repetition again',
  ],
  'GET /recordings/{recording_id}/raw': ['getRawRecording', 'The file or packet log of a recording exactly as it came'],
  'POST /reanalyses': ['startReanalysis', 'Analyses a selection again in the background'],
  'GET /coach/athletes': ['listCoachAthletes', 'Lists athletes as the coach sees them: focus, tests, what changed'],
  'GET /coach/athletes/{athlete_id}': ['getCoachAthlete', 'One athlete as the coach sees them'],
  'GET /coach/athletes/{athlete_id}/course/figure': [
    'getCourseFigure',
    'The course of a quantity as SVG, PDF, or the numbers behind it',
  ],
  'GET /coach/athletes/{athlete_id}/course': ['getQuantityCourse', 'Course of a quantity over weeks'],
  'GET /coach/athletes/{athlete_id}/everything.zip': ['getEverything', 'Everything kept about one person'],
  'POST /coach/athletes/{athlete_id}/erase': ['eraseAthlete', 'Erases one person for good; the name must be typed'],
  'PUT /coach/athletes/{athlete_id}/sensors': ['setAthleteSensors', "Sets which sensors are an athlete's"],
  'PUT /coach/athletes/{athlete_id}/returning': ['setReturning', 'Marks an athlete as returning from an injury'],
  'POST /coach/plan-check': ['checkPlan', "Checks a plan against the coach's own limits"],
  'GET /coach/sessions/{session_id}/field': ['getField', 'A session as the field shows it'],
  'GET /coach/sessions/{session_id}/fatigue': ['getFatigue', 'How each athlete keeps up over a session'],
  'GET /coach/repetitions/{repetition_id}/judgements': [
    'getJudgements',
    'A repetition against what is normal for the athlete',
  ],
  'GET /coach/norms': ['getNorms', 'Norms of a programme that this club fetched'],
  'PUT /coach/norms': ['showNorms', 'Shows norms beside an athlete, or no longer'],
  'GET /coach/athletes/{athlete_id}/others': ['getAthleteBesideOthers', 'One athlete beside bands of others alike'],
  'GET /coach/settings': ['getCoachSettings', "The coach's settings"],
  'PUT /coach/settings': ['setCoachSettings', "Sets the coach's settings"],
  'GET /coach/athletes/{athlete_id}/strength': ['listStrength', 'Strength records of an athlete'],
  'POST /coach/strength': ['createStrengthRecord', 'Records strength of an athlete'],
  'DELETE /coach/strength/{strength_record_id}': [
    'deleteStrengthRecord',
    'Deletes a strength record; it can be restored',
  ],
  'POST /coach/strength/{strength_record_id}/restore': ['restoreStrengthRecord', 'Restores a deleted strength record'],
  'GET /access/devices': ['listDevices', 'Lists paired devices'],
  'PATCH /access/devices/{device_id}': ['changeDevice', 'Changes the name or role of a device'],
  'DELETE /access/devices/{device_id}': ['revokeDevice', 'Revokes a device'],
  'GET /coach/templates': ['listTemplates', 'Lists templates of sessions'],
  'GET /coach/reports/repetition/{repetition_id}': ['getRepetitionReport', 'Report of a repetition'],
  'GET /coach/reports/repetition/{repetition_id}/page.pdf': [
    'getRepetitionReportPdf',
    'Report of a repetition as a PDF',
  ],
  'GET /coach/reports/session/{session_id}/{athlete_id}': ['getSessionReport', 'Report of a session of an athlete'],
  'GET /coach/reports/session/{session_id}/{athlete_id}/page.pdf': [
    'getSessionReportPdf',
    'Report of a session of an athlete as a PDF',
  ],
  'GET /coach/reports/month/{athlete_id}/{month}': ['getMonthReport', 'Report of a month of an athlete'],
  'GET /coach/reports/month/{athlete_id}/{month}/page.pdf': [
    'getMonthReportPdf',
    'Report of a month of an athlete as a PDF',
  ],
  'GET /capture/descriptions': ['listDescriptions', 'Lists stream descriptions of sensors'],
  'POST /capture/descriptions': ['addDescription', 'Adds a stream description, or replaces the one of its identifier'],
  'DELETE /capture/descriptions/{description_id}': ['removeDescription', 'Removes a stream description that was added'],
  'GET /capture/events': ['followLiveCapture', 'Server-sent events of live capture'],
  'GET /imports/{import_id}/events': ['followImport', 'Server-sent events of an import: progress, then done or failed'],
  'GET /coach/sessions/{session_id}/field/events': [
    'followField',
    'Server-sent events: when the field view is to be asked for again',
  ],
  'GET /coach/repetitions/{repetition_id}/ratings/{aspect}/photo': ['getRatingPhoto', 'Photograph beside a rating'],
  'PUT /coach/repetitions/{repetition_id}/ratings/{aspect}/photo': [
    'setRatingPhoto',
    'Keeps a photograph beside a rating',
  ],
  'DELETE /coach/repetitions/{repetition_id}/ratings/{aspect}/photo': [
    'deleteRatingPhoto',
    'Deletes the photograph beside a rating',
  ],
  'GET /capture': ['getLiveCapture', 'State of live capture'],
  'POST /capture/explore': ['startExploring', 'Connects a sensor only to see how it speaks'],
  'GET /capture/explore': ['getExploring', 'What an explored sensor offers'],
  'DELETE /capture/explore': ['stopExploring', 'Ends exploring a sensor'],
  'POST /capture/explore/listen': ['listenToSensor', 'Listens to a characteristic of an explored sensor'],
  'POST /capture/explore/try': ['tryDescription', 'Tries a stream description on an explored sensor'],
  'POST /capture/descriptions/check': ['checkDescription', 'Checks a stream description without keeping it'],
  'POST /captures/{capture_id}/analyse': ['analyseCapture', 'Looks for repetitions of a capture again'],
  'POST /captures/{capture_id}/replay': ['replayCapture', 'Plays a capture again'],
  'GET /captures/{capture_id}/logs/{sensor_id}/samples.csv': [
    'getCaptureSamples',
    "One sensor's samples of a capture, as CSV",
  ],
  'DELETE /captures/{capture_id}/logs/{sensor_id}': ['deleteCaptureLog', "Deletes one sensor's log of a capture"],
  'POST /capture/search': ['searchSensors', 'Starts or stops looking for sensors'],
  'PUT /capture/sensors/{sensor_id}': ['setSensor', 'Gives a sensor its athlete, side and mounting'],
  'DELETE /capture/sensors/{sensor_id}': ['forgetSensor', 'Forgets a sensor'],
  'POST /capture/sensors/{sensor_id}/fetch': [
    'fetchSensorRecordings',
    "Fetches the recordings in a sensor's own memory",
  ],
  'POST /capture/start': ['startCapture', 'Connects the sensors and records until stop'],
  'POST /capture/replay': ['replaySession', "Plays a stored session's packets"],
  'POST /capture/stop': ['stopCapture', 'Ends the capture'],
  'POST /capture/mark': ['markRepetition', "The coach's own start and stop of a repetition"],
  'POST /capture/browser/{sensor_id}': ['openBrowserSensor', 'A browser holds a sensor for this capture'],
  'POST /capture/browser/{sensor_id}/packets': ['sendBrowserPackets', "Packets of a browser's sensor"],
};

const VERBS: Record<string, [id: string, does: string]> = {
  GET: ['get', 'One'],
  POST: ['create', 'Makes'],
  PATCH: ['change', 'Changes'],
  PUT: ['set', 'Sets'],
  DELETE: ['delete', 'Deletes'],
};
const ACTIONS: Record<string, string> = {
  restore: 'Restores a deleted',
  cancel: 'Cancels',
  retry: 'Starts again',
  accept: 'Accepts',
  revert: 'Takes back',
};

/**
 * Name of an operation: as given above, else from its method and path, `GET /athletes` as listAthletes.
 * @param path with parameters in braces, without /api
 */
export function operationName(method: string, path: string): OperationName {
  const own = OWN[`${method} ${path}`];
  if (own) return { id: own[0], summary: own[1] };
  const parts = path.split('/').filter((part) => part !== '' && part !== 'coach');
  const nouns = parts.filter((part) => !part.startsWith('{'));
  const last = nouns[nouns.length - 1];
  const ends_in_item = parts[parts.length - 1].startsWith('{');
  const of_whom = singular(nouns[0]);
  const owner = nouns.length > 1 ? ` of ${article(of_whom)} ${words(of_whom)}` : '';
  const action = ACTIONS[last];
  if (method === 'POST' && action) {
    const of = singular(nouns[nouns.length - 2]);
    const a = last === 'restore' ? '' : ` ${article(of)}`;
    return { id: `${last}${camel(of)}`, summary: `${action}${a} ${words(of)}` };
  }
  const several = method === 'GET' && !ends_in_item && last.endsWith('s');
  const name = camel(several ? last : singular(last));
  const within =
    nouns.length > 1
      ? nouns
          .slice(0, -1)
          .map((noun) => camel(singular(noun)))
          .join('')
      : '';
  if (several) return { id: `list${within}${name}`, summary: `Lists ${words(last)}${owner}` };
  const [verb, does] = VERBS[method];
  const one = method === 'GET' ? (ends_in_item ? 'One' : 'The') : `${does} ${article(singular(last))}`;
  return { id: `${verb}${within}${name}`, summary: `${one} ${words(singular(last))}${owner}` };
}

const words = (noun: string): string => noun.replaceAll('-', ' ').replace(/\.\w+$/, '');
const article = (noun: string): string => (/^[aeiou]/.test(noun) ? 'an' : 'a');

function singular(noun: string): string {
  if (noun === 'analyses' || noun === 'reanalyses') return `${noun.slice(0, -2)}is`;
  if (noun.endsWith('focuses')) return noun.slice(0, -2);
  return noun.endsWith('s') && !noun.endsWith('us') && !noun.endsWith('ss') ? noun.slice(0, -1) : noun;
}

function camel(noun: string): string {
  return noun
    .replace(/\.\w+$/, '')
    .split('-')
    .map(capital)
    .join('');
}

import type { AnalysisSettings } from '../../dsp/settings/settings.ts';
import { CONTACT_FIELDS, CONTACT_QUANTITIES } from '../../shared/fields.ts';
import type { Store } from '../store/store.ts';
import { VERSION } from '../version.ts';
import type { Selection } from './selection.ts';

interface Made {
  version: string;
  method: string;
  settings_sha256: string;
  settings: string;
  filters: string;
  mounting: string | null;
  rate: number;
  gyroscope: number;
}

/** How to cite the software in a paper; the same block stands in README. */
export function citation(version: string = VERSION): string {
  return `Cinderlane contributors (2026). Cinderlane: ground contacts of sprint running from foot and shank sensors (version ${version}) [computer software]. Apache-2.0.`;
}

/**
 * A paragraph for the methods section of a paper, true to what was done to this selection: sensors, rates, filters, settings.
 * Nothing is claimed that is not in the results' own provenance.
 */
export function methodStatement(store: Store, selection: Selection): string {
  const made = store
    .prepare(
      `SELECT version, method, settings_sha256, settings, filters,
         (SELECT min(mounting) FROM recordings JOIN repetition_recordings USING (recording_id) WHERE repetition_id = analyses.repetition_id) AS mounting,
         (SELECT min(sampling_rate_hz) FROM recordings JOIN repetition_recordings USING (recording_id) WHERE repetition_id = analyses.repetition_id) AS rate,
         (SELECT min(has_gyroscope) FROM recordings JOIN repetition_recordings USING (recording_id) WHERE repetition_id = analyses.repetition_id) AS gyroscope
       FROM analyses WHERE analysis_id IN (SELECT value FROM json_each(?))
       GROUP BY version, method, settings_sha256, mounting, gyroscope, round(rate)`,
    )
    .all(JSON.stringify(selection.repetitions.map((r) => r.analysis_id))) as Made[];
  const rates = made.map((m) => Math.round(m.rate)).filter((rate) => rate > 0);
  const mountings = [...new Set(made.map((m) => m.mounting).filter((m) => m !== null))];
  const gyroscope = made.every((m) => m.gyroscope === 1);
  const settings = [...new Set(made.map((m) => m.settings_sha256.slice(0, 12)))];
  const versions = [...new Set(made.map((m) => `${m.version} (method ${m.method})`))];
  const filters = filterWords(made.map((m) => m.filters));
  const rateWords = rates.length === 0 ? 'an unknown rate' : ratesWords(Math.min(...rates), Math.max(...rates));
  return `${[
    `Ground contacts were measured with ${gyroscope ? 'accelerometers and gyroscopes' : 'accelerometers (in part without gyroscopes)'} on the ${mountings.length > 0 ? mountings.join(' or ') : 'foot or shank'} of each leg, sampled at ${rateWords}.`,
    `${selection.repetitions.length} repetitions of ${selection.athlete_ids.length} athletes were analysed with Cinderlane ${versions.join(' and ')}, settings ${settings.join(', ')} (first 12 digits of their SHA-256).`,
    gyroscope
      ? 'The axis of leg swing was found from the rotation itself; strides were parted at mid-swing, and touchdown and toe-off were estimated in each stride by combining several features of rotation and acceleration by their inverse variances, the onset of a sharp impact where the signal showed one (features of the kind reviewed by Falbriard et al. 2018, doi 10.3389/fphys.2018.00610, and Blauberger et al. 2021, doi 10.3390/s21217331).'
      : 'Strides were found by the likeness of the acceleration to itself, and touchdown and toe-off by features of the acceleration along and across the segment.',
    filters,
    "Contact time is toe-off minus touchdown of one foot; flight time the other foot's next touchdown minus toe-off; step rate the inverse of the time between touchdowns of alternate feet.",
    'Speed and step length come from the course, its times and the step times (after de Ruiter and van Dieen 2019, doi 10.3390/sports7090202), from the belt speed, or from the foot sensor, as the column spatial_source says; vertical and leg stiffness follow the sine-wave model (Morin et al. 2005, J Appl Biomech 21:167-180).',
    `Quantities of a contact carry a standard uncertainty in the column that ends in _u (JCGM 100:2008), except ${withoutUncertainty()}, whose error was not estimated; so do the fitted curve and what follows from it. Distances, times and bodies are as entered. Values that could not be measured are empty.`,
    priorWords(made.map((m) => m.settings)),
    priorEffectWords(store, selection),
    'Stiffness is given only where the speed stays within 3 % from one step to the next, since its model is one of steady running.',
  ].join(' ')}\n\n${citation(made[0]?.version)}\n`;
}

/** Labels of the quantities of a contact that have no uncertainty of their own. */
function withoutUncertainty(): string {
  const labels = CONTACT_QUANTITIES.filter((name) => !CONTACT_FIELDS[name].u).map((name) => CONTACT_FIELDS[name].label);
  return labels.length === 1 ? labels[0] : `${labels.slice(0, -1).join(', ')} and ${labels[labels.length - 1]}`;
}

/** The prior of the fitted curve, as the settings had it: it moves F0 and the time constant where times alone do not settle them. */
function priorWords(settings: string[]): string {
  const taus = settings.map((text) => (JSON.parse(text) as AnalysisSettings).strides?.timing?.tau_s).filter(Boolean);
  if (taus.length === 0) return '';
  const [{ value, u }] = taus;
  return `The curve's time constant has a prior of ${value} s with a standard uncertainty of ${100 * u} % where a course has one time only; it pulls the time constant, and with it F0, towards that value, which their uncertainties allow for.`;
}

/** How far what the fits supposed beforehand moved F0 in this selection, as each analysis worked it out. */
function priorEffectWords(store: Store, selection: Selection): string {
  const rows = store
    .prepare(
      `SELECT json_extract(result, '$.speed_curve.f0_prior_u_share') AS u, json_extract(result, '$.speed_curve.f0_prior_pull_share') AS pull
       FROM analyses WHERE analysis_id IN (SELECT value FROM json_each(?))`,
    )
    .all(JSON.stringify(selection.repetitions.map((r) => r.analysis_id))) as {
    u: number | null;
    pull: number | null;
  }[];
  const shares = rows.flatMap(({ u }) => (u === null ? [] : [u]));
  const pulls = rows.flatMap(({ pull }) => (pull === null ? [] : [pull]));
  if (shares.length === 0) return '';
  const percent = (share: number) => `${(100 * share).toFixed(1)} %`;
  const range = (all: number[]) => `${percent(Math.min(...all))} to ${percent(Math.max(...all))}`;
  const pulled =
    pulls.length > 0
      ? `pulled F0 by ${range(pulls)} from what times and strides give by themselves in ${pulls.length} of ${shares.length} fitted repetitions; in the others these settle no curve`
      : `could not be told from the times in any of ${shares.length} fitted repetitions, since these settle no curve by themselves`;
  return `What the fits supposed beforehand (start of the clock, time constant) ${pulled}. One standard uncertainty of it moves F0 by ${range(shares)} (columns f0_prior_u_share, f0_prior_pull_share).`;
}

function ratesWords(least: number, most: number): string {
  return least === most ? `${least} Hz` : `${least} to ${most} Hz`;
}

function filterWords(all: string[]): string {
  const found = new Map<string, { order: number; cutoff_hz: number; passes: number }[]>();
  for (const filters of all) {
    for (const filter of JSON.parse(filters) as {
      channel: string;
      order: number;
      cutoff_hz: number;
      passes: number;
    }[]) {
      found.set(filter.channel, [...(found.get(filter.channel) ?? []), filter]);
    }
  }
  const words = [...found].map(([channel, filters]) => {
    const cutoffs = filters.map((filter) => filter.cutoff_hz);
    return `${channel} (order ${filters[0].order}, ${filters[0].passes} passes, half power at ${ratesWords(Math.round(Math.min(...cutoffs)), Math.round(Math.max(...cutoffs)))})`;
  });
  return words.length > 0 ? `Butterworth low-pass filters without delay were applied to ${words.join(', ')}.` : '';
}

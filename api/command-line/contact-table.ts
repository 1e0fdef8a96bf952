import { meansOfRepetition } from '../../shared/at-speed.ts';
import { terminalSpeech } from './speech.ts';
import type { Contact, ContactQuantity, RepetitionResult, SensorQuality } from '../../shared/analysis.ts';
import { CONTACT_FIELDS, STEP_FIELDS } from '../../shared/fields.ts';
import type { AnalyzeOutput } from './analyze-output.ts';

/** Columns of the printed table, with their headings' first and second line. */
const COLUMNS = Object.keys(STEP_FIELDS) as (keyof typeof STEP_FIELDS)[];

const SUMMARY_LINES: ContactQuantity[] = [
  'contact_time_ms',
  'flight_time_ms',
  'step_time_ms',
  'step_rate_hz',
  'step_length_m',
  'speed_mps',
  'duty_factor',
];

const NOT_MEASURABLE = '-';

/** What `analyze` prints: one line a contact, then each repetition's summary with units, then what the data are fit for. */
export function contactTable({ analysis, repetitions }: AnalyzeOutput): string {
  const parts = Array.from(repetitions, (repetition) => `${contactLines(repetition)}\n${summaryLines(repetition)}`);
  if (parts.length === 0) parts.push('No running found: standing and walking do not count.\n');
  return `${parts.join('\n')}\n${analysis.quality.map(qualityLines).join('')}`;
}

function contactLines(repetition: RepetitionResult): string {
  const head = ['step', 'side', ...COLUMNS.map((name) => CONTACT_FIELDS[name].label), 'phase', 'sure'];
  const units = ['', '', ...COLUMNS.map((name) => CONTACT_FIELDS[name].unit), '', ''];
  const rows = repetition.contacts.map((contact) => [
    String(contact.step),
    contact.side,
    ...COLUMNS.map((name) => cell(contact, name)),
    contact.phase ?? NOT_MEASURABLE,
    contact.confidence.toFixed(2),
  ]);
  const widths = head.map((_, i) => Math.max(...[head, units, ...rows].map((row) => row[i].length)));
  const line = (row: string[]) =>
    row
      .map((text, i) => text.padStart(widths[i]))
      .join('  ')
      .trimEnd();
  return [`Repetition ${repetition.repetition}`, line(head), line(units), ...rows.map(line), ''].join('\n');
}

function cell(contact: Contact, name: ContactQuantity): string {
  const value = contact[name];
  return value === null || value === undefined ? NOT_MEASURABLE : value.toFixed(CONTACT_FIELDS[name].decimals);
}

function summaryLines({ contacts, summary, travel, speed_curve, first_movement_s, reasons }: RepetitionResult): string {
  const { means, stretch } = meansOfRepetition(summary);
  const lines = [
    `  contacts ${summary.contacts}${summary.contacts_missing ? ` found, ${summary.contacts_missing} missing` : ''}, travel ${travel}; means over ${stretch === 'at_speed' ? 'contacts at speed' : 'all contacts'}:`,
  ];
  for (const name of SUMMARY_LINES) {
    const quantity = means[name];
    const { label, unit, decimals } = CONTACT_FIELDS[name]!;
    const shown = decimals + 1;
    lines.push(
      quantity
        ? `  ${label.padEnd(16)} ${quantity.mean.toFixed(shown)} ${unitText(unit)}± ${quantity.mean_u.toFixed(shown)} (u), sd ${quantity.sd.toFixed(shown)}, n ${quantity.n}`
        : `  ${label.padEnd(16)} not measurable${reasons[name] ? `: ${terminalSpeech().because(reasons[name])}` : ''}`,
    );
  }
  const [left, right] = [summary.left.contact_time_ms, summary.right.contact_time_ms];
  if (left && right) {
    lines.push(`  ${'left / right'.padEnd(16)} contact time ${left.mean.toFixed(1)} / ${right.mean.toFixed(1)} ms`);
  }
  if (contacts.some((contact) => contact.assumes_symmetry)) {
    lines.push('  one side was recorded: flight and step values assume left and right alike');
  }
  if (first_movement_s !== null) lines.push(`  ${'first movement'.padEnd(16)} ${first_movement_s.toFixed(3)} s`);
  if (summary.speed_max_mps !== null) {
    const u = summary.speed_max_mps_u === null ? '' : ` ± ${summary.speed_max_mps_u.toFixed(2)} (u)`;
    lines.push(`  ${'top speed'.padEnd(16)} ${summary.speed_max_mps.toFixed(2)} m/s${u}`);
  }
  if (speed_curve) {
    lines.push(
      `  ${'speed curve'.padEnd(16)} vmax ${speed_curve.vmax_mps.toFixed(2)} m/s, tau ${speed_curve.tau_s.toFixed(2)} s, from ${speed_curve.from}`,
    );
  }
  return `${lines.join('\n')}\n`;
}

function unitText(unit: string): string {
  return unit === '1' ? '' : `${unit} `;
}

function qualityLines(quality: SensorQuality): string {
  const doubts = quality.verdicts.filter((verdict) => verdict.fitness !== 'good');
  const lines = [
    `${quality.side} ${quality.mounting}: ${quality.sampling_rate_hz.toFixed(1)} Hz, ${quality.duration_s.toFixed(1)} s, ` +
      `${quality.gaps.length} gaps, ${quality.acc_clipped_samples + quality.gyr_clipped_samples} clipped samples`,
    ...doubts.map((verdict) => `  ${verdict.quantity}: ${verdict.fitness}; ${terminalSpeech().because(verdict.why)}`),
    ...quality.faults.map(terminalSpeech().tell).map(({ message, hint }) => `  ${message} ${hint}`.trimEnd()),
  ];
  return `${lines.join('\n')}\n`;
}

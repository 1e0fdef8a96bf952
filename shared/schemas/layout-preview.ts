import { type Static, Type } from 'typebox';
import { FaultValue, MountingWord, Nullable, ReasonText, SideWord, wordOf } from './common.ts';
import { Layout, LayoutCorrection, LONGEST_LAYOUT_TEXT } from './layout.ts';

/** Fields of the form beside `file`, which carries the beginning of a sensor file, or all of it. */
export const LayoutPreviewFields = Type.Object(
  {
    mounting: Type.Optional(MountingWord),
    side: Type.Optional(SideWord),
    rate: Type.Optional(
      Type.String({ maxLength: 60, description: 'Sampling rate where the file has no time, such as 500hz.' }),
    ),
    layout: Type.Optional(
      Type.String({
        maxLength: LONGEST_LAYOUT_TEXT,
        description: 'A layout as JSON, whole, or what is to be corrected.',
      }),
    ),
    part: Type.Optional(Type.Boolean({ description: 'True where only the beginning of the file is sent.' })),
  },
  { additionalProperties: false },
);
export type LayoutPreviewFields = Static<typeof LayoutPreviewFields>;

/** What is understood about a file before its rows are read. */
export const UNDERSTOOD = [
  'sheet',
  'encoding',
  'layout',
  'delimiter',
  'decimal mark',
  'header',
  'rows',
  'side',
  'acceleration',
  'acceleration unit',
  'gravity',
  'gyroscope',
  'gyroscope unit',
  'angular rate',
  'time',
  'time zone',
  'date',
  'date order',
  'counter',
] as const;

/** How sure a reading is: told by the user or a layout; written in the file; measured from the data; assumed. */
export const EvidenceItem = Type.Object({
  about: wordOf(UNDERSTOOD),
  decided: ReasonText,
  because: ReasonText,
  source: wordOf(['told', 'written', 'measured', 'assumed']),
});
export type EvidenceItem = Static<typeof EvidenceItem>;

export const LINE_ROLES = ['preamble', 'names', 'units', 'row'] as const;

export const FileLine = Type.Object({
  /** 1-based, as a text editor counts. */
  line: Type.Integer(),
  role: wordOf(LINE_ROLES),
  text: Type.String(),
});
export type FileLine = Static<typeof FileLine>;

/** What is seen of one column, and what its name says. */
export const FileColumn = Type.Object({
  index: Type.Integer(),
  name: Type.String(),
  /** Unit as the units row or the name spells it; empty where neither does. */
  unit: Type.String(),
  /** Cells of the first rows. */
  first: Type.Array(Type.String()),
  least: Nullable(Type.Number()),
  greatest: Nullable(Type.Number()),
  /** All its values, where there are at most four. */
  values: Type.Array(Type.String()),
  /** What the name alone speaks of. */
  kind: Nullable(Type.String()),
  axis: Nullable(wordOf(['x', 'y', 'z'])),
  sign: Type.Number(),
  side: SideWord,
});
export type FileColumn = Static<typeof FileColumn>;

/** What is looked at to see whether a file was read rightly. */
const CHECKED = ['rate', 'at rest', 'hardest shake', 'fastest turn', 'rotation', 'axes', 'running'] as const;

export const CHECK_VERDICTS = ['plausible', 'doubtful', 'impossible'] as const;

/** One figure that shows whether a file was read rightly. */
export const ReadingCheck = Type.Object({
  about: wordOf(CHECKED),
  found: ReasonText,
  verdict: wordOf(CHECK_VERDICTS),
  /** What is expected, and what to look at where it is not so. */
  why: ReasonText,
  /** Axes of rotation that would fit when turned round. */
  turn: Type.Array(wordOf(['x', 'y', 'z'])),
});
export type ReadingCheck = Static<typeof ReadingCheck>;

/** One sensor as it was read, with a thinned picture of its signal. */
export const PreviewSensor = Type.Object({
  side: SideWord,
  checks: Type.Array(ReadingCheck),
  duration_s: Type.Number(),
  /** Greatest norm in each of equal parts of the time, m/s2; null in a gap. */
  acc_mps2: Type.Array(Nullable(Type.Number())),
  /** The same for the angular rate, rad/s; empty without a gyroscope. */
  gyr_radps: Type.Array(Nullable(Type.Number())),
});
export type PreviewSensor = Static<typeof PreviewSensor>;

/** What the beginning of a file is taken for, why, and what comes out when it is read so. Nothing is stored. */
export const LayoutPreview = Type.Object({
  lines: Type.Array(FileLine),
  columns: Type.Array(FileColumn),
  delimiter: Type.String(),
  decimal_mark: Type.String(),
  /** Null where the file was refused. */
  layout: Nullable(Layout),
  /** Name of the saved layout it was read with. */
  saved_layout: Nullable(Type.String()),
  evidence: Type.Array(EvidenceItem),
  /** Why the file was refused; null where it was read. */
  fault: Nullable(FaultValue),
  /** Readings to choose from, where the file does not tell: each with what to pass as `layout`. */
  choices: Type.Array(Type.Object({ label: ReasonText, correction: LayoutCorrection })),
  sensors: Type.Array(PreviewSensor),
  /** What was met and did not stop the reading. */
  faults: Type.Array(FaultValue),
  rows: Type.Integer(),
  rejected_count: Type.Integer(),
});
export type LayoutPreview = Static<typeof LayoutPreview>;

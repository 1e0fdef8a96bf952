import { type Static, Type } from 'typebox';
import { Id, Nullable } from './common.ts';
import { RecordingLine } from './repetition.ts';

/** A recording with how its file was understood and where samples are missing. */
export const Recording = Type.Intersect([
  RecordingLine,
  Type.Object({
    athlete_id: Id,
    import_id: Nullable(Id),
    /** file: imported; radio: captured live. */
    source: Type.String(),
    gaps: Type.Array(
      Type.Object({ start_s: Type.Number(), end_s: Type.Number(), lost_samples: Nullable(Type.Number()) }),
    ),
    /** The layout the file was read with (shared/schemas/layout.ts); null for radio. */
    layout: Type.Unknown(),
    /** What was understood about the file, and why. */
    evidence: Type.Unknown(),
    repetition_ids: Type.Array(Id),
  }),
]);
export type Recording = Static<typeof Recording>;

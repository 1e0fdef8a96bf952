import { type Static, Type } from 'typebox';
import { Judgement, Verdict } from './judgement.ts';

/** A repetition against the athlete's normal, the same as the field screen says it. */
export const RepetitionJudgements = Type.Object({
  verdict: Verdict,
  /** The verdict as one sentence. */
  sentence: Type.String(),
  items: Type.Array(Judgement),
});
export type RepetitionJudgements = Static<typeof RepetitionJudgements>;

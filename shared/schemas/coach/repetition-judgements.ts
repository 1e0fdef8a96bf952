import { type Static, Type } from 'typebox';
import { Judgement } from './judgement.ts';

/** A repetition against the athlete's normal, the same as the field screen says it. */
export const RepetitionJudgements = Type.Object({
  /** The one sentence: what is beyond normal, or that nothing is. */
  sentence: Type.String(),
  items: Type.Array(Judgement),
});
export type RepetitionJudgements = Static<typeof RepetitionJudgements>;

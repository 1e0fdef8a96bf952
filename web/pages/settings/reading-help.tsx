import { CONTACT_QUANTITIES } from '../../../shared/fields.ts';
import { Glossary } from '../../parts/glossary.tsx';
import { Legend, LegendBand, LegendBeyond, LegendEarlier, LegendSide } from '../../parts/plot/legend.tsx';

/** How the plots are read, and what each quantity means. */
export function ReadingHelp() {
  return (
    <>
      <section aria-labelledby="reading-head">
        <h2 id="reading-head">Reading the plots</h2>
        <div class="sheet">
          <Legend>
            <LegendSide side="left" />
            <LegendSide side="right" />
            <LegendBand text="normal variation" />
            <LegendEarlier text="earlier today" />
            <LegendBeyond />
          </Legend>
          <p>
            The whisker on a point, and the number behind ±, is where the true value lies 95 times in a hundred, as far
            as the measurement goes.
          </p>
          <p>
            The band is what is normal for this athlete at this effort and course: dark, where about two of three
            repetitions lie; light, as far as chance reaches. Only what lies outside of both is marked. It is
            provisional until it rests on six repetitions: until then, published variation stands in for the athlete's
            own.
          </p>
          <p>
            A dash, or words in place of a number, means that the sensors could not measure it; the reason stands with
            it. Nothing is ever guessed to fill a gap.
          </p>
        </div>
      </section>
      <section aria-labelledby="words-head">
        <h2 id="words-head">Words</h2>
        <div class="sheet">
          <Glossary quantities={CONTACT_QUANTITIES} />
        </div>
      </section>
    </>
  );
}

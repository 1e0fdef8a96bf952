/** One of several instants that an event of a contact may have. */
export interface Candidate {
  /** Sample index. */
  at: number;
  /** Its distance from touchdown as a share of the stride. */
  share: number;
  /** How much it looks like the event; a difference of 1 makes it e times as likely. */
  score: number;
}

/** The candidate chosen for a contact, and how clearly. */
export interface Chosen {
  candidate: Candidate;
  /** By how much the best path through another instant scores less; infinite where there is no other. */
  margin: number;
}

/** How a share may change along a foot's contacts. */
export interface Steadiness {
  /** Usual change from stride to stride (standard deviation). */
  step: number;
  /** Most that a change may cost: a run starts, and the leg does something else. */
  most: number;
  /** Candidates closer than this are the same instant. */
  same: number;
}

/**
 * Chooses one candidate a contact so that they look right and follow each other steadily: contact as a share of the stride
 * changes little from one stride of a foot to the next (dynamic programming over the contacts, Bellman 1957).
 * @param candidates of each contact in time order; may be empty
 * @returns the chosen one of each contact, null where there is none
 */
export function steadyPath(candidates: Candidate[][], steadiness: Steadiness): (Chosen | null)[] {
  const order = candidates.map((_, k) => k).filter((k) => candidates[k].length > 0);
  const columns = order.map((k) => candidates[k]);
  const forward = bestTotals(columns, steadiness);
  const backward = bestTotals([...columns].reverse(), steadiness).reverse();
  const chosen: (Chosen | null)[] = candidates.map(() => null);
  columns.forEach((column, n) => {
    const through = column.map(({ score }, i) => forward[n][i] + backward[n][i] - score);
    const best = through.indexOf(Math.max(...through));
    const others = through.filter((_, i) => Math.abs(column[i].share - column[best].share) > steadiness.same);
    chosen[order[n]] = { candidate: column[best], margin: through[best] - Math.max(...others) };
  });
  return chosen;
}

/** Score of the best path that ends in each candidate. */
function bestTotals(columns: Candidate[][], { step, most }: Steadiness): number[][] {
  const totals: number[][] = [];
  columns.forEach((column, n) => {
    totals.push(
      column.map(({ share, score }) => {
        if (n === 0) return score;
        const before = columns[n - 1].map(
          (earlier, j) => totals[n - 1][j] - Math.min(most, 0.5 * ((share - earlier.share) / step) ** 2),
        );
        return score + Math.max(...before);
      }),
    );
  });
  return totals;
}

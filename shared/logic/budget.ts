/**
 * How much work the logic may do before it answers “not known”. A short condition can need a
 * decision diagram of more nodes than any memory holds (for some functions every variable order is
 * bad), so a limit is needed for an editor to get an answer whatever is typed.
 *
 * Work is counted in steps and never by the clock, so a craft gets the same answers on every
 * machine. A step is one node visited or made, of a variable with at most 32 values (see
 * `diagram.ts`). 100,000 steps take 30 to 60 ms on a two-core machine before the code is compiled
 * by the engine. The whole answer after an edit must come within 500 ms; a usual craft needs some
 * hundred steps for all of it.
 */
export interface WorkBudget {
  /** Steps to compile one condition, its final nodes counted once more. */
  readonly condition: number;
  /** Steps to compile all conditions of a craft. Each condition may use an equal share of what is left. */
  readonly craft: number;
  /** Variables (levels) that a condition may use; a condition that names a later one is not known. */
  readonly variables: number;
  /** Steps added to `craft` for each node of the conditions' syntax trees: a long script takes longer to read as well. */
  readonly test: number;
  /** Upper limit of `craft` with all that `test` adds. */
  readonly craftAtMost: number;
  /** Steps for one operation on compiled sets, such as whether two of them intersect. */
  readonly question: number;
  /** Steps for the prime implicants of all modes and outputs, in equal shares, since the panel shows those of each. */
  readonly ways: number;
  /** Steps to count or to list the distinct states of a craft. */
  readonly states: number;
  /** Steps to find the shortest tour of all controls. */
  readonly tour: number;
}

/** The budget of every craft; tests use smaller ones. */
export const BUDGET: WorkBudget = {
  condition: 10_000,
  craft: 40_000,
  test: 4,
  craftAtMost: 100_000,
  variables: 1000,
  question: 30_000,
  ways: 100_000,
  states: 50_000,
  tour: 200_000,
};

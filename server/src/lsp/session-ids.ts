/** Ids by which a client says later which answer it has. */

/**
 * Gives another id at each call. A client that outlives a server asks the next one by the ids of the last: no two
 * servers give the same.
 */
export function sessionIds(): () => string {
  // No secret: it only has to be another one.
  const session = Math.random().toString(36).slice(2);
  let count = 0;
  return () => `${session}.${++count}`;
}

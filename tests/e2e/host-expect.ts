/** The little that a suite inside an extension host needs: cases, their outcomes, and patience. */

/** Runs the cases in order and says each; throws in the end where one was not true, or threw. */
export async function expectAll(cases: Readonly<Record<string, () => unknown>>): Promise<void> {
  const failed: string[] = [];
  for (const [name, isSo] of Object.entries(cases)) {
    const why = await failureOf(isSo);
    console.log(why === null ? `passed: ${name}` : `FAILED: ${name}: ${why}`);
    if (why !== null) failed.push(name);
  }
  if (failed.length > 0) throw new Error(`Failed in the extension host: ${failed.join("; ")}`);
}

async function failureOf(isSo: () => unknown): Promise<string | null> {
  try {
    return (await isSo()) === true ? null : "it is not so";
  } catch (error) {
    return String(error);
  }
}

/** Asks again until the answer fits; false where it never did within the time. */
export async function until<T>(
  ask: () => PromiseLike<T>,
  fits: (answer: T) => unknown,
  patienceMs = 20_000,
): Promise<boolean> {
  const end = Date.now() + patienceMs;
  do {
    if (fits(await ask())) return true;
    await new Promise((resolve) => setTimeout(resolve, 100));
  } while (Date.now() < end);
  return false;
}

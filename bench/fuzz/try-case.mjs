/** Runs a case: how it ended, `taken` or `refused`; anything but a documented error is thrown, with its number. */
export function tryCase(name, { make, allows, check }, number) {
  const { kind, run } = make(number);
  let result;
  try {
    result = run();
  } catch (error) {
    if (allows(error)) return { kind, end: 'refused' };
    throw new Error(`${name}, case ${number} (${kind}) gave another exception`, { cause: error });
  }
  try {
    check(result);
  } catch (error) {
    throw new Error(`${name}, case ${number} (${kind}) gave a wrong result`, { cause: error });
  }
  return { kind, end: 'taken' };
}

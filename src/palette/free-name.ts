/** The name itself; with a number where another swatch goes by it. */
export function freeName(wanted: string, names: ReadonlySet<string>): string {
  let name = wanted;
  for (let n = 2; names.has(name); n++) name = `${wanted} (${n})`;
  return name;
}

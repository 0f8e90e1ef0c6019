// The page of results.

export function writeTables({ drawings, size, tally, originals }) {
  const rows = [...tally.values()].map(({ name, size: n, unit, wanted, made, found }) => {
    const share = made === 0 ? '' : (found / made).toFixed(3);
    return `| ${name} | ${n} ${unit} | ${wanted ? 'yes' : 'no'} | ${made} | ${found} | ${share} |`;
  });
  const kinds = Object.entries(originals).map(([kind, found]) => {
    const by = new Map();
    for (const { finding } of found) by.set(finding.check, (by.get(finding.check) ?? 0) + 1);
    return `${kind}: ${JSON.stringify(Object.fromEntries(by))}`;
  });
  return `${drawings} ${size}
| fault | size | wanted | made | found | share |
|---|---|---|---|---|---|
${rows.join('\n')}

${kinds.join('\n')}
`;
}

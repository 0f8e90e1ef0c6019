// The page of results.
import { FALSE_FINDINGS } from './judged.mjs';

/** Checks whose findings are true by what they count: there is nothing to judge by eye. */
export const BY_DEFINITION = ['unnamed', 'unused', 'lookalikes'];

export function writeTables({ drawings, size, tally, originals }) {
  return `# Checks: what is found of seeded faults

Made by \`npm run bench:checks\`, on the first ${drawings} distinct drawings of openmoji 17 (CC BY-SA 4.0) by the hash of
their names, none left out, ${size} pixels on each side, their line art antialiased.

## Seeded faults

Flats are laid by \`layFlats\`, a swatch a region. Each kind of fault is put at a random place of each drawing that has
a place for it, in sizes from half to four times the threshold of its check; where a check has no threshold, in a few
pixels. A fault counts as found when a finding of its check holds a pixel of it, or names its swatches. *Wanted* says
whether the check is to find a fault of this size: not where it is beyond the threshold. \`bench/checks/faults.mjs\`
makes them.

| fault | size | wanted | made | found | share |
|---|---|---|---|---|---|
${[...tally.values()].map(faultRow).join('\n')}

A line of half the length that \`divided\` is asked for is found at times, because the two regions meet farther on within
the ink at its ends. \`colors\` is the check of \`checkSheets\`: one name in two colors.

## Flats without a fault

All checks, those on request too, on the flats as laid, without a plan, and on flats with a point for every region in the
color that the drawing has there. Every finding that an eye can judge was looked at (\`--crops FOLDER\` writes them) and
is *real* where the picture has what the message says; \`bench/checks/judged.mjs\` lists those that are *false*. The
others follow from what they count: regions that no plan names, and differences of colors.

| flats | check | findings | false | false a drawing |
|---|---|---|---|---|
${Object.entries(originals)
  .flatMap(([kind, found]) => originalRows(kind, found, drawings))
  .join('\n')}
`;
}

function faultRow({ name, size, unit, wanted, made, found }) {
  const share = made === 0 ? '' : (found / made).toFixed(3);
  return `| ${name} | ${size} ${unit} | ${wanted ? 'yes' : 'no'} | ${made} | ${found} | ${share} |`;
}

function originalRows(kind, found, drawings) {
  const by = new Map();
  for (const { drawing, finding } of found) {
    const row = by.get(finding.check) ?? { total: 0, wrong: 0 };
    row.total++;
    const [x, y] = finding.at.map(Math.floor);
    if (FALSE_FINDINGS.includes(`${kind} ${drawing} ${finding.check} ${x},${y}`)) row.wrong++;
    by.set(finding.check, row);
  }
  const judged = [...by].filter(([check]) => !BY_DEFINITION.includes(check));
  const total = judged.reduce((sum, [, { total }]) => sum + total, 0);
  const wrong = judged.reduce((sum, [, { wrong }]) => sum + wrong, 0);
  return [
    ...[...by].map(([check, row]) => {
      const isJudged = !BY_DEFINITION.includes(check);
      const words = isJudged ? `${row.wrong} | ${(row.wrong / drawings).toFixed(3)}` : ' | ';
      return `| ${kind} | ${check} | ${row.total} | ${words} |`;
    }),
    `| ${kind} | all judged | ${total} | ${wrong} | ${(wrong / drawings).toFixed(3)} |`,
  ];
}

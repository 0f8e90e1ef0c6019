// What a person's actions make of a plan: each gives a new one.

/**
 * An area gets a name. Points that named it before go, so that no two names ask for one area; where
 * something else than a point named it, the new point covers that.
 *
 * @param area - `{ point, marks, named }`: a point of it, the places in `plan.marks` of the points in
 * it, and whether it has a name.
 */
export function nameArea(plan, { point, marks, named }, swatch) {
  const over = named && marks.length === 0 ? { over: true } : {};
  const dropped = withoutMarks(plan, marks);
  return withSwatch(addMark(dropped, { point, swatch: swatch.name, ...over }), swatch);
}

/** The points that named an area go. */
export const unnameArea = (plan, { marks }) => withoutMarks(plan, marks);

export function layOutline(plan, ring, swatch, over) {
  const mark = { polygon: [ring], swatch: swatch.name, ...(over ? { over } : {}) };
  return withSwatch(addMark(plan, mark), swatch);
}

/** A gap is closed by a `bridge`, or kept `open`. */
export function decideGap(plan, kind, [from, to]) {
  const marks = plan.marks.filter((mark) => !isOfGap(mark, from, to));
  return addMark({ ...plan, marks }, { [kind]: [from, to] });
}

/** Whether a mark of the plan says what becomes of a gap. */
export function isDecided(plan, { from, to }) {
  return plan.marks.some((mark) => isOfGap(mark, from, to));
}

export function changeSettings(plan, settings) {
  const all = { ...plan.settings, ...settings };
  const given = Object.entries(all).filter(([, value]) => value !== undefined);
  return { ...plan, settings: Object.fromEntries(given) };
}

/** The plan with a swatch of this name and color in its palette. */
export function withSwatch(plan, { name, color }) {
  const { palette } = plan;
  const known = palette.find((swatch) => swatch.name === name);
  if (known === undefined) return { ...plan, palette: [...palette, { name, color }] };
  if (known.color === color) return plan;
  const changed = palette.map((swatch) => (swatch === known ? { name, color } : swatch));
  return { ...plan, palette: changed };
}

function addMark(plan, mark) {
  return { ...plan, marks: [...plan.marks, mark] };
}

/** Without some marks, and without the swatches that only those laid. */
function withoutMarks(plan, places) {
  const gone = new Set(places.map((i) => plan.marks[i].swatch));
  const marks = plan.marks.filter((_, i) => !places.includes(i));
  for (const { swatch } of marks) gone.delete(swatch);
  gone.delete(plan.settings?.ground);
  return { ...plan, marks, palette: plan.palette.filter(({ name }) => !gone.has(name)) };
}

function isOfGap({ bridge, open }, from, to) {
  const ends = bridge ?? open;
  if (ends === undefined) return false;
  const same = (a, b) => a[0] === b[0] && a[1] === b[1];
  const [a, b] = ends;
  return (same(a, from) && same(b, to)) || (same(a, to) && same(b, from));
}

// Random corrections of a plan, the same for one seed.

/** Numbers from 0 to 1 (mulberry32, public domain). */
export function randomFrom(seed) {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), state | 1);
    t = (t + Math.imul(t ^ (t >>> 7), t | 61)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

export const MARKS = ['point', 'fill', 'cut', 'join', 'bridge', 'open', 'polygon'];

/** A correction of each kind: the plan changed in one place. */
export function correctionsOf(plan, bridges, random) {
  const [width, height] = plan.size;
  const place = () => [random() * width, random() * height];
  const near = ([x, y], reach) => [
    Math.min(width - 1, Math.max(0, x + (2 * random() - 1) * reach)),
    Math.min(height - 1, Math.max(0, y + (2 * random() - 1) * reach)),
  ];
  const swatch = () => plan.palette[Math.floor(random() * plan.palette.length)].name;
  const ring = (at, radius, corners) =>
    Array.from({ length: corners }, (_, i) => {
      const angle = (2 * Math.PI * i) / corners;
      const r = radius * (0.6 + 0.4 * random());
      return [at[0] + r * Math.cos(angle), at[1] + r * Math.sin(angle)];
    });
  const mark = (one) => ({ ...plan, marks: [...plan.marks, one] });
  const set = (settings) => ({ ...plan, settings: { ...plan.settings, ...settings } });
  const gap = () => {
    const bridge = bridges[Math.floor(random() * bridges.length)];
    if (bridge !== undefined) return [bridge.from, bridge.to];
    const at = place();
    return [at, near(at, 12)];
  };
  return {
    point: () => mark({ point: place(), swatch: swatch(), over: random() < 0.5 }),
    fill: () => mark({ fill: place(), swatch: swatch(), over: true }),
    cut: () => {
      const at = place();
      return mark({ cut: [at, near(at, 150)] });
    },
    join: () => {
      const at = place();
      return mark({ join: [at, near(at, 60)] });
    },
    bridge: () => {
      const at = place();
      return mark({ bridge: random() < 0.5 ? gap() : [at, near(at, 20)] });
    },
    open: () => mark({ open: gap() }),
    polygon: () => mark({ polygon: [ring(place(), 100, 12)], swatch: swatch(), over: true }),
    'page-wide polygon': () => {
      const radius = Math.min(width, height) / 2;
      const polygon = [ring([width / 2, height / 2], radius, 12)];
      return mark({ polygon, swatch: swatch(), over: random() < 0.5 });
    },
    caution: () => set({ caution: random() }),
    maxGap: () => set({ maxGap: Math.floor(40 * random()) }),
  };
}

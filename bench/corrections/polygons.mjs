// Random polygons of 5 to 500 vertices at whole coordinates, the same in every run.

/** Numbers from 0 up to 1 by a linear congruence (Park and Miller 1988). */
function seeded(seed) {
  let state = seed;
  return () => {
    state = (state * 48271) % 2147483647;
    return (state - 1) / 2147483646;
  };
}

/** Vertices anywhere on the page. */
export function pagePolygons(count, width, height) {
  const random = seeded(20240817);
  return Array.from({ length: count }, () =>
    Array.from({ length: 5 + Math.floor(random() * 496) }, () => [
      Math.floor(random() * width),
      Math.floor(random() * height),
    ]),
  );
}

/** Vertices in turn round a center, 50 to 1500 pixels across, as an area is outlined by hand. */
export function localPolygons(count, width, height) {
  const random = seeded(314159);
  return Array.from({ length: count }, () => {
    const vertices = 5 + Math.floor(random() * 496);
    const size = 50 + random() * 1450;
    const [cx, cy] = [random() * width, random() * height];
    return Array.from({ length: vertices }, (_, i) => {
      const angle = (2 * Math.PI * i) / vertices;
      const radius = (size / 2) * (0.6 + 0.4 * random());
      return [Math.round(cx + radius * Math.cos(angle)), Math.round(cy + radius * Math.sin(angle))];
    });
  });
}

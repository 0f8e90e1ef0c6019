/**
 * What a model sheet carries beside the figures: expression heads, a hand study, props.
 */

import { drawCrabStartled } from './crab.mjs';
import { drawHeronCall } from './heron.mjs';
import { drawOtterHead } from './otter.mjs';
import { blob, limb, oval } from './pen.mjs';

/**
 * Draws all extras at their places on the sheet.
 * @param {import('./drawing.mjs').Drawing} d drawing
 */
export function drawExtras(d) {
  d.place({ x: 1420, y: 280, scale: 0.8 }, () =>
    d.place({ x: -700, y: -244 }, () => drawHeronCall(d)),
  );
  d.place({ x: 2000, y: 300, scale: 0.78, turn: -6 }, () => drawOtterHead(d, 'wink'));
  d.place({ x: 2580, y: 356, scale: 0.72, turn: 4 }, () => drawCrabStartled(d));
  d.place({ x: 1850, y: 650, turn: 8, scale: 0.84 }, () => drawPaw(d));
  d.place({ x: 2240, y: 740, turn: -14 }, () => drawWhistle(d));
  d.place({ x: 2588, y: 752, turn: 8 }, () => drawToken(d));
  d.place({ x: 2832, y: 550, turn: -5 }, () => drawBell(d));
  d.behind(() => drawQuay(d));
}

/**
 * The otter's open paw: pads and webs.
 * @param {import('./drawing.mjs').Drawing} d drawing
 */
function drawPaw(d) {
  const fingers = [
    [
      [-46, 0, 26],
      [-78, -70, 27],
      [-104, -122, 23],
    ],
    [
      [-20, -14, 27],
      [-34, -100, 27],
      [-46, -168, 24],
    ],
    [
      [14, -14, 27],
      [22, -104, 27],
      [24, -174, 24],
    ],
    [
      [46, 0, 26],
      [74, -80, 26],
      [94, -136, 22],
    ],
  ];
  // webs lie behind the fingers
  d.part(
    blob([
      [-104, -60, 1],
      [-86, -96, 1],
      [-58, -104],
      [-40, -130, 1],
      [-8, -122],
      [24, -136, 1],
      [48, -112],
      [82, -104, 1],
      [96, -60, 1],
      [60, 0, 1],
      [-60, 0, 1],
    ]),
    'otter belly',
    { width: 8 },
  );
  d.part(
    blob([
      [-84, -4],
      [-70, -34],
      [-40, -42],
      [0, -48],
      [40, -42],
      [70, -34],
      [88, 0],
      [92, 44],
      [74, 100],
      [66, 150],
      [-58, 150],
      [-70, 90],
      [-88, 44],
    ]),
    'otter fur',
    { width: 9 },
  );
  for (const f of fingers) d.part(limb(f), 'otter fur', { width: 8, skip: [[3, 0]] });
  d.part(
    limb([
      [46, 62, 32],
      [108, 26, 28],
      [150, -18, 22],
    ]),
    'otter fur',
    { width: 8, skip: [[3, 0]], gaps: [[0.3, 6]] },
  );
  d.part(
    blob([
      [-44, 40],
      [-22, 12],
      [4, 22],
      [30, 8],
      [52, 34],
      [44, 72],
      [4, 84],
      [-36, 74],
    ]),
    'otter pads',
    { width: 7 },
  );
  for (const f of fingers) {
    const [[ax, ay], [bx, by]] = [f[1], f[2]];
    const lean = (Math.atan2(bx - ax, ay - by) * 180) / Math.PI;
    d.part(oval(bx * 0.95 + ax * 0.05, by * 0.95 + ay * 0.05, 12, 15, lean), 'otter pads', {
      width: 6,
    });
  }
  d.part(oval(145, -12, 11, 14, 42), 'otter pads', { width: 6 });
  d.part(
    blob([
      [-76, 112, 1],
      [4, 128],
      [84, 112, 1],
      [92, 160],
      [86, 206, 1],
      [4, 220],
      [-80, 206, 1],
      [-86, 160],
    ]),
    'otter collar',
    {
      width: 9,
      inside: () => {
        for (let x = -56; x < 76; x += 24) {
          d.stroke(
            [
              [x, 136],
              [x + x * 0.04, 192],
            ],
            6,
            { start: 0.2, end: 0.2 },
          );
        }
      },
    },
  );
}

/**
 * A pilot's brass pipe on its cord.
 * @param {import('./drawing.mjs').Drawing} d drawing
 */
function drawWhistle(d) {
  d.part(
    limb([
      [-118, 6, 8],
      [-190, 40, 8],
      [-214, -40, 8],
      [-140, -100, 8],
      [-20, -104, 8],
      [80, -126, 8],
      [170, -112, 8],
      [196, -70, 8],
    ]),
    'signal red',
    { width: 6 },
  );
  d.part(oval(-118, 0, 24, 24), 'brass', {
    width: 7,
    inside: () => d.part(oval(-118, 0, 10, 10), 'ground', { width: 5 }),
  });
  d.part(
    blob([
      [-96, -24, 1],
      [20, -26],
      [130, -28, 1],
      [136, 0],
      [130, 24, 1],
      [84, 26],
      [72, 70],
      [20, 92],
      [-40, 76],
      [-66, 40],
      [-96, 22, 1],
    ]),
    'brass',
    {
      width: 10,
      gaps: [[0.5, 7]],
      inside: () => {
        d.band(
          [
            [96, -60],
            [90, 0],
            [96, 60],
          ],
          [
            [140, -60],
            [140, 0],
            [140, 60],
          ],
          'dark brass',
          7,
        );
        d.stroke(
          [
            [-40, 40],
            [-20, 62],
            [14, 70],
          ],
          6,
          { start: 0.1, end: 0.1 },
        );
        d.stroke(
          [
            [-70, -6],
            [-20, -8],
          ],
          5,
          { start: 0.1, end: 0.1 },
        );
      },
    },
  );
  d.part(
    blob([
      [-10, -36, 1],
      [44, -38, 1],
      [40, -4, 1],
      [14, 10, 1],
      [-4, -2, 1],
    ]),
    'dark brass',
    { width: 7 },
  );
  d.part(oval(14, 40, 15, 14), 'dark brass', { width: 6 });
  d.part(
    blob([
      [178, -82, 1],
      [206, -88, 1],
      [224, -48],
      [236, -10, 1],
      [214, -18, 1],
      [196, 2, 1],
      [186, -40],
    ]),
    'signal red',
    { width: 7 },
  );
}

/**
 * A ferry token: a wave and a star of the harbour light.
 * @param {import('./drawing.mjs').Drawing} d drawing
 */
function drawToken(d) {
  d.part(oval(16, 18, 96, 96), 'dark brass', { width: 9 });
  d.part(oval(0, 0, 96, 96), 'brass', { width: 9 });
  d.part(oval(0, 0, 74, 74), 'brass', {
    width: 7,
    gaps: [[0.6, 6]],
    inside: () => {
      d.band(
        [
          [-90, 22],
          [-60, 8],
          [-34, 22],
          [-6, 34],
          [22, 20],
          [48, 8],
          [90, 24],
        ],
        [
          [-90, 100],
          [0, 110],
          [90, 100],
        ],
        'dark brass',
        7,
      );
      d.stroke(
        [
          [-46, 46],
          [-24, 54],
          [0, 46],
        ],
        6,
        { start: 0.1, end: 0.1 },
      );
      d.stroke(
        [
          [10, 50],
          [28, 42],
          [44, 46],
        ],
        6,
        { start: 0.1, end: 0.1 },
      );
    },
  });
  const star = Array.from({ length: 16 }, (_, i) => {
    const r = i % 2 ? 11 : i % 4 ? 21 : 29;
    return [r * Math.sin((i * Math.PI) / 8), -24 - r * Math.cos((i * Math.PI) / 8), 1];
  });
  d.part(blob(star), 'brass', { width: 6 });
}

/**
 * The quay's fog bell with its pull.
 * @param {import('./drawing.mjs').Drawing} d drawing
 */
function drawBell(d) {
  d.part(
    limb([
      [0, 190, 9],
      [6, 236, 8],
      [-6, 280, 9],
      [2, 318, 10],
    ]),
    'rope',
    { width: 7 },
  );
  d.part(oval(2, 330, 17, 19), 'rope', { width: 7 });
  d.part(oval(0, 176, 27, 27), 'dark brass', { width: 8 });
  d.part(oval(0, -4, 24, 26), 'dark brass', {
    width: 8,
    inside: () => d.part(oval(0, -6, 11, 12), 'ground', { width: 5 }),
  });
  d.part(
    blob([
      [-28, 16, 1],
      [0, 10],
      [28, 16, 1],
      [58, 50],
      [70, 104],
      [88, 146],
      [104, 168, 1],
      [0, 184],
      [-104, 168, 1],
      [-88, 146],
      [-70, 104],
      [-58, 50],
    ]),
    'brass',
    {
      width: 10,
      gaps: [[0.24, 7]],
      inside: () => {
        d.band(
          [
            [-110, 104],
            [0, 118],
            [110, 104],
          ],
          [
            [-110, 130],
            [0, 146],
            [110, 130],
          ],
          'dark brass',
        );
        d.stroke(
          [
            [-38, 46],
            [-48, 72],
            [-50, 92],
          ],
          6,
          { start: 0.1, end: 0.1 },
        );
        d.stroke(
          [
            [40, 40],
            [50, 66],
          ],
          5,
          { start: 0.1, end: 0.1 },
        );
      },
    },
  );
}

/**
 * The quay that the pilots stand on: three rows of planks behind all feet, their butt joints
 * staggered, some of their grain, and the wet on them.
 * @param {import('./drawing.mjs').Drawing} d drawing
 */
function drawQuay(d) {
  const back = [
    [58, 1806, 1],
    [700, 1800],
    [1500, 1804],
    [2300, 1799],
    [2944, 1806, 1],
  ];
  const front = [
    [2976, 1926, 1],
    [2300, 1934],
    [1500, 1929],
    [700, 1935],
    [24, 1928, 1],
  ];
  // the ends of the rows stand out unevenly, as sawn planks do
  const right = [
    [2934, 1838, 1],
    [2960, 1838, 1],
    [2956, 1880, 1],
    [2984, 1881, 1],
  ];
  const left = [
    [38, 1882, 1],
    [16, 1881, 1],
    [28, 1840, 1],
    [48, 1840, 1],
  ];
  const seams = [
    [1839, 20],
    [1881, 10],
  ];
  const joints = [
    [1802, 1839, [420, 890, 1440, 1960, 2560]],
    [1839, 1881, [215, 700, 1180, 1730, 2270, 2800]],
    [1881, 1931, [470, 960, 1490, 2050, 2610]],
  ];
  const grain = [
    [420, 1858, 500],
    [720, 1904, 860],
    [560, 1912, 640],
    [240, 1904, 350],
    [1040, 1862, 1130],
    [1290, 1908, 1400],
    [1560, 1860, 1660],
    [1660, 1908, 1760],
    [2120, 1862, 2190],
    [2330, 1908, 2440],
    [2500, 1860, 2580],
    [2780, 1906, 2880],
  ];
  d.part(blob([...back, ...right, ...front, ...left]), 'wet planks', {
    width: 8,
    inside: () => {
      for (const [y, end] of seams) {
        d.stroke(
          [
            [end, y + 1],
            [800, y - 2],
            [1500, y + 1],
            [2200, y - 2],
            [3000 - end, y],
          ],
          6,
          { start: 1, end: 1 },
        );
      }
      for (const [top, bottom, places] of joints) {
        for (const x of places) {
          // drawn toward the middle of the picture, as the eye sees a floor
          const lean = (x - 1500) / 60;
          d.stroke(
            [
              [x, top],
              [x + lean, bottom],
            ],
            5,
            { start: 1, end: 1 },
          );
        }
      }
      for (const [x0, y, x1] of grain) {
        d.stroke(
          [
            [x0, y],
            [(x0 + x1) / 2, y + 4],
            [x1, y + 1],
          ],
          5,
          { start: 0.1, end: 0.05 },
        );
      }
    },
  });
}

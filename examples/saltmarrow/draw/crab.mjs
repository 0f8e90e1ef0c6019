/**
 * The crab: old captain, peaked cap between the eye stalks, tea mug in the small pincer.
 */

import { drawBrow, drawEye } from './face.mjs';
import { blob, limb, oval } from './pen.mjs';

/**
 * Draws the crab, leg tips at about y 1860.
 * @param {import('./drawing.mjs').Drawing} d drawing
 */
export function drawCrab(d) {
  d.place({ x: 262, y: 186, scale: 0.9 }, () => {
    drawLegs(d);
    drawBigArm(d);
    drawMugArm(d);
    drawBody(d);
    d.place({ x: 2450, y: 1300 }, () => drawCrabFace(d, 'stern'));
  });
}

/**
 * Three pairs of walking legs.
 * @param {import('./drawing.mjs').Drawing} d drawing
 */
function drawLegs(d) {
  // hips, knees, ankles and tips of the three left legs, hindmost first
  const legs = [
    [
      [2250, 1520],
      [2120, 1500],
      [2040, 1580],
      [2010, 1700],
      [1998, 1800],
    ],
    [
      [2270, 1570],
      [2150, 1590],
      [2094, 1668],
      [2086, 1760],
      [2080, 1852],
    ],
    [
      [2356, 1560],
      [2238, 1660],
      [2200, 1730],
      [2206, 1800],
      [2216, 1880],
    ],
  ];
  for (const flip of [false, true]) {
    d.place(flip ? { x: 4902, flip: true } : {}, () => {
      for (const [hip, knee, shin, ankle, tip] of legs) {
        d.part(
          limb([
            [...shin, 34],
            [...ankle, 22],
            [...tip, 5],
          ]),
          'crab shell',
          {
            width: 9,
            inside: () => {
              const y = ankle[1] + 34;
              d.band(
                [
                  [ankle[0] - 60, y - 8],
                  [ankle[0], y + 6],
                  [ankle[0] + 60, y - 8],
                ],
                [
                  [tip[0] - 60, 1960],
                  [tip[0], 1970],
                  [tip[0] + 60, 1960],
                ],
                'cream',
                7,
              );
              d.stroke(
                [
                  [shin[0] - 6, shin[1] + 30],
                  [ankle[0] - 4, ankle[1] - 30],
                ],
                5,
                { start: 0.2, end: 0.1 },
              );
            },
          },
        );
        d.part(
          limb([
            [...hip, 46],
            [...knee, 48],
            [...shin, 36],
          ]),
          'crab shell',
          {
            width: 9,
            inside: () => {
              d.stroke(
                [
                  [knee[0] + 60, knee[1] - 14],
                  [knee[0] + 10, knee[1] - 18],
                  [knee[0] - 26, knee[1] + 8],
                ],
                6,
                { start: 0.1, end: 0.1 },
              );
            },
          },
        );
      }
    });
  }
}

/**
 * A pincer around its wrist at the origin, opening upwards.
 * @param {import('./drawing.mjs').Drawing} d drawing
 * @param {() => void} [hold] draws what the pincer holds
 */
function drawPincer(d, hold) {
  // the movable finger lies behind the palm
  d.part(
    blob([
      [-40, -130, 1],
      [-96, -176],
      [-128, -250],
      [-116, -326],
      [-70, -386, 1],
      [-66, -316],
      [-44, -262],
      [-10, -220],
      [10, -180, 1],
    ]),
    'crab shell',
    {
      width: 10,
      skip: [[8, 0]],
      inside: () => {
        d.band(
          [
            [-180, -300],
            [-110, -306],
            [-20, -330],
          ],
          [
            [-180, -420],
            [-100, -440],
            [-20, -420],
          ],
          'cream',
          7,
        );
      },
    },
  );
  hold?.();
  const palm = blob([
    [-34, 6],
    [-88, -40],
    [-110, -104],
    [-88, -164],
    [-40, -190],
    [4, -196, 1],
    [22, -222],
    [14, -244],
    [36, -262],
    [28, -286],
    [48, -306],
    [42, -350],
    [30, -400, 1],
    [92, -364],
    [128, -290],
    [134, -200],
    [112, -100],
    [70, -24],
    [30, 10],
  ]);
  d.part(palm, 'crab shell', {
    width: 11,
    inside: () => {
      d.band(
        [
          [0, -316],
          [70, -296],
          [180, -312],
        ],
        [
          [0, -440],
          [80, -440],
          [180, -430],
        ],
        'cream',
        7,
      );
      d.stroke(
        [
          [-70, -60],
          [-84, -104],
          [-66, -144],
        ],
        6,
        { start: 0.1, end: 0.1 },
      );
      for (const [x, y, r] of [
        [40, -156, 18],
        [78, -204, 16],
        [22, -100, 16],
      ]) {
        d.part(oval(x, y, r, r * 0.9), 'crab spots', { width: 5 });
      }
    },
  });
}

/**
 * The raised arm with the big pincer.
 * @param {import('./drawing.mjs').Drawing} d drawing
 */
function drawBigArm(d) {
  d.part(
    limb([
      [2680, 1400, 50],
      [2770, 1420, 52],
      [2826, 1400, 48],
    ]),
    'crab shell',
    { width: 9 },
  );
  d.part(
    limb(
      [
        [2822, 1424, 50],
        [2846, 1370, 52],
        [2836, 1306, 46],
      ],
      { start: true },
    ),
    'crab shell',
    {
      width: 9,
      inside: () =>
        d.stroke(
          [
            [2870, 1400],
            [2874, 1350],
          ],
          6,
          { start: 0.1, end: 0.1 },
        ),
    },
  );
  d.place({ x: 2840, y: 1300, turn: 5, scale: 1 }, () => drawPincer(d));
}

/**
 * The arm that holds the mug.
 * @param {import('./drawing.mjs').Drawing} d drawing
 */
function drawMugArm(d) {
  d.part(
    limb([
      [2230, 1400, 46],
      [2150, 1424, 46],
      [2096, 1410, 42],
    ]),
    'crab shell',
    { width: 9 },
  );
  d.part(
    limb(
      [
        [2100, 1430, 42],
        [2070, 1386, 44],
        [2078, 1330, 38],
      ],
      { start: true },
    ),
    'crab shell',
    { width: 9 },
  );
  d.place({ x: 2092, y: 1334, turn: -4, scale: 0.74 }, () => {
    drawPincer(d, () => d.place({ x: -28, y: -300, turn: 4 }, () => drawMug(d)));
  });
}

/**
 * The tea mug, steaming.
 * @param {import('./drawing.mjs').Drawing} d drawing
 */
function drawMug(d) {
  d.part(
    limb([
      [-70, -66, 15],
      [-128, -70, 15],
      [-132, 4, 15],
      [-70, 20, 15],
    ]),
    'cream',
    { width: 8 },
  );
  d.part(
    blob([
      [-82, -112, 1],
      [82, -112, 1],
      [84, 0],
      [72, 84, 1],
      [0, 96],
      [-72, 84, 1],
      [-84, 0],
    ]),
    'cream',
    {
      width: 9,
      inside: () =>
        d.band(
          [
            [-120, -62],
            [0, -48],
            [120, -62],
          ],
          [
            [-120, -30],
            [0, -16],
            [120, -30],
          ],
          'harbour blue',
          7,
        ),
    },
  );
  d.part(oval(0, -112, 84, 24), 'cream', {
    width: 8,
    inside: () => d.part(oval(0, -104, 68, 16), 'tea', { width: 6 }),
  });
  d.stroke(
    [
      [-24, -156],
      [-44, -186],
      [-14, -214],
      [-30, -248],
    ],
    7,
    { start: 0.1, end: 0.1 },
  );
  d.stroke(
    [
      [26, -160],
      [8, -190],
      [36, -216],
      [22, -244],
    ],
    7,
    { start: 0.1, end: 0.1 },
  );
}

/**
 * Shell, kerchief, belt and pouch.
 * @param {import('./drawing.mjs').Drawing} d drawing
 */
function drawBody(d) {
  const body = blob([
    [2160, 1352],
    [2196, 1270],
    [2290, 1222],
    [2450, 1204],
    [2610, 1222],
    [2706, 1270],
    [2742, 1352],
    [2734, 1450],
    [2676, 1560],
    [2570, 1640],
    [2450, 1660],
    [2330, 1640],
    [2226, 1560],
    [2168, 1450],
  ]);
  d.part(body, 'crab face', {
    width: 12,
    gaps: [[0.745, 8]],
    inside: () => {
      d.place({ x: 2450, y: 1300 }, () => drawHood(d));
      drawKerchief(d);
      drawBelt(d);
    },
  });
  drawKnot(d);
  drawPouch(d);
}

/**
 * The crab's head alone, startled; the middle of the hood's edge is the origin.
 * @param {import('./drawing.mjs').Drawing} d drawing
 */
export function drawCrabStartled(d) {
  d.part(
    blob([
      [-290, 52],
      [-254, -30],
      [-160, -78],
      [0, -96],
      [160, -78],
      [254, -30],
      [290, 52],
      [268, 150],
      [180, 226],
      [0, 256],
      [-180, 226],
      [-268, 150],
    ]),
    'crab face',
    {
      width: 12,
      inside: () => {
        drawHood(d);
      },
    },
  );
  drawCrabFace(d, 'startled');
}

/**
 * The carapace, which comes down over the face like a hood.
 * @param {import('./drawing.mjs').Drawing} d drawing
 */
function drawHood(d) {
  d.band(
    [
      [350, 80],
      [272, 60],
      [150, 16],
      [0, 4],
      [-150, 16],
      [-270, 60],
      [-350, 80],
    ],
    [
      [350, -200],
      [0, -300],
      [-350, -200],
    ],
    'crab shell',
    9,
  );
  for (const [x, y, r] of [
    [-224, 4, 17],
    [-196, -34, 15],
    [226, 4, 17],
    [196, -34, 15],
  ]) {
    d.part(oval(x, y, r * 1.2, r), 'crab spots', { width: 5 });
  }
}

/**
 * The neckerchief around the body.
 * @param {import('./drawing.mjs').Drawing} d drawing
 */
function drawKerchief(d) {
  d.band(
    [
      [2120, 1440],
      [2240, 1492],
      [2450, 1520],
      [2660, 1492],
      [2780, 1440],
    ],
    [
      [2120, 1490],
      [2250, 1548],
      [2450, 1574],
      [2650, 1548],
      [2780, 1490],
    ],
    'sea green',
    8,
  );
  d.stroke(
    [
      [2230, 1512],
      [2290, 1532],
      [2350, 1538],
    ],
    5,
    { start: 0.1, end: 0.1 },
  );
  d.stroke(
    [
      [2580, 1536],
      [2630, 1520],
      [2670, 1500],
    ],
    5,
    { start: 0.1, end: 0.1 },
  );
}

/**
 * The neckerchief's knot and tips.
 * @param {import('./drawing.mjs').Drawing} d drawing
 */
function drawKnot(d) {
  d.part(
    blob([
      [2440, 1548, 1],
      [2400, 1576],
      [2384, 1640, 1],
      [2424, 1626],
      [2452, 1640, 1],
      [2456, 1590],
    ]),
    'sea green',
    { width: 8 },
  );
  d.part(
    blob([
      [2460, 1548, 1],
      [2506, 1570],
      [2540, 1622, 1],
      [2500, 1624],
      [2474, 1646, 1],
      [2458, 1596],
    ]),
    'sea green',
    { width: 8 },
  );
  d.part(
    blob([
      [2450, 1516],
      [2484, 1530],
      [2484, 1566],
      [2450, 1580],
      [2416, 1566],
      [2416, 1530],
    ]),
    'sea green',
    { width: 8 },
  );
}

/**
 * The belt, low on the shell.
 * @param {import('./drawing.mjs').Drawing} d drawing
 */
function drawBelt(d) {
  d.band(
    [
      [2160, 1560],
      [2300, 1606],
      [2450, 1620],
      [2600, 1606],
      [2740, 1560],
    ],
    [
      [2160, 1650],
      [2300, 1706],
      [2450, 1720],
      [2600, 1706],
      [2740, 1650],
    ],
    'dark leather',
    8,
  );
}

/**
 * The pouch on the belt.
 * @param {import('./drawing.mjs').Drawing} d drawing
 */
function drawPouch(d) {
  d.place({ x: 2606, y: 1622, turn: -16 }, () => {
    d.part(
      blob([
        [-52, -18, 1],
        [0, -24],
        [52, -18, 1],
        [60, 30],
        [48, 74, 1],
        [0, 82],
        [-48, 74, 1],
        [-60, 30],
      ]),
      'leather',
      { width: 9 },
    );
    d.part(
      blob([
        [-56, -22, 1],
        [0, -28],
        [56, -22, 1],
        [58, 10],
        [30, 34],
        [0, 44],
        [-30, 34],
        [-58, 10],
      ]),
      'dark leather',
      { width: 8, gaps: [[0.6, 6]] },
    );
    d.part(oval(0, 26, 14), 'brass', { width: 6 });
  });
}

/**
 * The crab's eyes, cap, moustache and mouth, around the middle of the hood's edge.
 * @param {import('./drawing.mjs').Drawing} d drawing
 * @param {'stern' | 'startled'} mood expression
 */
export function drawCrabFace(d, mood) {
  const startled = mood === 'startled';
  for (const side of [-1, 1]) {
    d.part(
      limb(
        [
          [side * 136, -40, 34],
          [side * 150, -110, 27],
          [side * 148, -170, 30],
        ],
        { start: true },
      ),
      'crab shell',
      {
        width: 9,
        inside: () => {
          for (const y of [-84, -104, -124]) {
            d.stroke(
              [
                [side * 148 - 22, y],
                [side * 148 - 4, y + 5],
              ],
              5,
              { start: 0.7, end: 0.1 },
            );
          }
        },
      },
    );
    drawEye(d, {
      x: side * 150,
      y: -212,
      rx: 62,
      ry: 68,
      look: startled ? [0, -6] : [-10, 8],
      iris: startled ? 27 : 36,
      swatch: 'blue iris',
      lid: 'crab spots',
      upper: startled ? 0 : 0.33,
      lower: startled ? 0 : 0.12,
      slant: side * -16,
      shiny: !startled,
    });
  }
  const up = startled ? -36 : 0;
  drawBrow(
    d,
    [
      [-234, -262 + up, 6],
      [-172, -292 + up, 20],
      [-96, -260 + up * 1.4, 16],
    ],
    'crab whiskers',
  );
  drawBrow(
    d,
    [
      [96, -260 + up * 1.4, 16],
      [172, -292 + up, 20],
      [234, -262 + up, 6],
    ],
    'crab whiskers',
  );
  drawCap(d);
  drawMouth(d, startled);
}

/**
 * The peaked cap.
 * @param {import('./drawing.mjs').Drawing} d drawing
 */
function drawCap(d) {
  d.place({ x: 2, y: -84, turn: -7, scale: 0.8 }, () => {
    d.part(
      blob([
        [-84, -6],
        [-112, -64],
        [-92, -104],
        [0, -124],
        [96, -102],
        [112, -62],
        [84, -4],
      ]),
      'crab cap',
      {
        width: 10,
        inside: () => {
          d.stroke(
            [
              [-60, -96],
              [-76, -70],
              [-74, -48],
            ],
            5,
            { start: 0.1, end: 0.1 },
          );
          d.stroke(
            [
              [64, -92],
              [80, -70],
            ],
            5,
            { start: 0.1, end: 0.1 },
          );
        },
      },
    );
    d.part(
      blob([
        [-88, -22, 1],
        [0, -34],
        [88, -22, 1],
        [92, 26, 1],
        [0, 16],
        [-92, 26, 1],
      ]),
      'cream',
      { width: 9 },
    );
    d.part(
      blob([
        [-94, 20, 1],
        [0, 6],
        [94, 20, 1],
        [104, 52],
        [60, 62],
        [0, 56],
        [-60, 62],
        [-104, 52],
      ]),
      'tar black',
      { width: 9 },
    );
    d.part(oval(0, -28, 24, 26), 'brass', { width: 7 });
    d.part(
      blob([
        [0, -44, 1],
        [9, -30],
        [0, -14, 1],
        [-9, -30],
      ]),
      'cream',
      { width: 5 },
    );
  });
}

/**
 * Mouth, moustache and nose.
 * @param {import('./drawing.mjs').Drawing} d drawing
 * @param {boolean} startled whether the mouth is open wide
 */
function drawMouth(d, startled) {
  if (startled) {
    d.part(oval(0, 168, 44, 46), 'mouth', {
      width: 8,
      inside: () => d.part(oval(2, 206, 34, 26), 'tongue', { width: 6 }),
    });
  } else {
    d.part(
      blob([
        [-50, 150],
        [0, 134],
        [54, 146],
        [44, 180],
        [4, 196],
        [-40, 184],
      ]),
      'mouth',
      {
        width: 8,
        inside: () => d.part(oval(6, 198, 34, 22), 'tongue', { width: 6 }),
      },
    );
  }
  // two wings of a full moustache, curling up at their tips
  const wing = [
    [0, 60, 1],
    [40, 44],
    [92, 58],
    [134, 90],
    [170, 92],
    [196, 62],
    [190, 26, 1],
    [228, 56],
    [232, 108],
    [192, 146],
    [160, 150],
    [146, 176, 1],
    [124, 158],
    [92, 168],
    [70, 196, 1],
    [58, 170],
    [28, 160],
    [0, 128, 1],
  ];
  for (const flip of [true, false]) {
    d.place({ flip }, () => {
      d.part(blob(wing), 'crab whiskers', {
        width: 9,
        inside: () => {
          d.stroke(
            [
              [34, 78],
              [84, 98],
              [126, 126],
            ],
            6,
            { start: 0.1, end: 0.1 },
          );
          d.stroke(
            [
              [36, 110],
              [66, 122],
              [94, 144],
            ],
            5,
            { start: 0.1, end: 0.1 },
          );
          d.stroke(
            [
              [160, 122],
              [194, 112],
              [212, 84],
            ],
            6,
            { start: 0.1, end: 0.1 },
          );
        },
      });
    });
  }
  d.part(
    blob([
      [0, 34],
      [34, 42],
      [38, 66],
      [0, 82],
      [-38, 66],
      [-34, 42],
    ]),
    'crab shell',
    { width: 8 },
  );
}

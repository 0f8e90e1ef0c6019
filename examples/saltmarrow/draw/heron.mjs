/**
 * The heron: senior pilot, on one leg, with her sweep oar.
 */

import { drawEye } from './face.mjs';
import { blob, limb, oval } from './pen.mjs';

/**
 * Draws the heron, feet at about (610, 1850).
 * @param {import('./drawing.mjs').Drawing} d drawing
 */
export function drawHeron(d) {
  drawPlumes(d);
  drawOar(d);
  drawNeck(d);
  drawLining(d);
  drawStandingLeg(d);
  drawLiftedLeg(d);
  drawCoat(d);
  drawOarArm(d);
  drawStrap(d);
  drawHipArm(d);
  drawScarf(d);
  drawHead(d, 'aloof');
  drawHat(d);
}

/**
 * The heron's head alone, calling out; eyes at about (700, 244).
 * @param {import('./drawing.mjs').Drawing} d drawing
 */
export function drawHeronCall(d) {
  drawPlumes(d);
  d.part(
    limb(
      [
        [668, 300, 64],
        [640, 380, 56],
        [632, 440, 56],
        [640, 486, 62],
      ],
      { end: false },
    ),
    'heron plumage',
    {
      width: 10,
      inside: () => {
        d.band(
          [
            [712, 300],
            [672, 380],
            [662, 440],
            [672, 520],
          ],
          [
            [800, 300],
            [760, 380],
            [740, 440],
            [740, 520],
          ],
          'heron face',
          6,
        );
        for (const [x, y] of [
          [616, 380],
          [606, 430],
        ]) {
          d.stroke(
            [
              [x, y],
              [x + 10, y + 14],
              [x + 24, y + 16],
            ],
            5,
            { start: 0.2, end: 0.1 },
          );
        }
      },
    },
  );
  drawHead(d, 'squawk');
  drawHat(d);
}

/**
 * Crest plumes, behind head and hat.
 * @param {import('./drawing.mjs').Drawing} d drawing
 */
function drawPlumes(d) {
  const plumes = [
    [
      [600, 262],
      [500, 262],
      [400, 306],
      [318, 412],
      [352, 310],
      [410, 246],
      [500, 212],
      [600, 214],
    ],
    [
      [612, 300],
      [530, 316],
      [454, 384],
      [384, 530],
      [408, 410],
      [440, 326],
      [510, 262],
      [600, 240],
    ],
    [
      [622, 330],
      [560, 366],
      [508, 448],
      [478, 600],
      [474, 470],
      [492, 380],
      [545, 302],
      [622, 268],
    ],
  ];
  for (const p of plumes) {
    const at = p.map((q, i) => (i === 3 ? [...q, 1] : q));
    d.part(blob(at), 'heron plumes', { width: 8, skip: [[7, 0]], tip: 0.5 });
    // the tip runs out into a hair
    const [tx, ty] = p[3];
    const [bx, by] = [(p[2][0] + p[4][0]) / 2, (p[2][1] + p[4][1]) / 2];
    const len = Math.hypot(tx - bx, ty - by);
    const [ux, uy] = [(tx - bx) / len, (ty - by) / len];
    d.stroke(
      [
        [tx - ux * 6, ty - uy * 6],
        [tx + ux * 16, ty + uy * 18],
        [tx + ux * 34 - 3, ty + uy * 36],
      ],
      6,
      { start: 1, end: 0.05 },
    );
  }
}

/**
 * The sweep oar, blade up.
 * @param {import('./drawing.mjs').Drawing} d drawing
 */
function drawOar(d) {
  const shaft = limb(
    [
      [232, 640, 15],
      [262, 1240, 16],
      [292, 1838, 17],
    ],
    { end: true },
  );
  d.part(shaft, 'oar wood', {
    width: 8,
    inside: () => {
      d.stroke(
        [
          [240, 700],
          [252, 900],
        ],
        4,
        { start: 0.1, end: 0.1 },
      );
      d.stroke(
        [
          [268, 1290],
          [276, 1500],
        ],
        4,
        { start: 0.1, end: 0.1 },
      );
    },
  });
  const grip = limb(
    [
      [281, 1650, 24],
      [284, 1720, 25],
      [288, 1790, 24],
    ],
    { end: false },
  );
  d.part(grip, 'dark leather', {
    width: 7,
    inside: () => {
      for (let y = 1672; y < 1785; y += 24) {
        d.stroke(
          [
            [254, y],
            [282, y + 12],
          ],
          5,
          { start: 0.9, end: 0.1 },
        );
      }
    },
  });
  const blade = blob([
    [210, 236],
    [252, 258],
    [282, 330],
    [288, 430],
    [274, 540],
    [250, 640],
    [234, 700],
    [214, 640],
    [180, 545],
    [158, 440],
    [152, 335],
    [170, 262],
  ]);
  d.part(blade, 'oar wood', {
    width: 10,
    inside: () => {
      const stripe = [
        [100, 372],
        [160, 392],
        [220, 394],
        [330, 362],
      ];
      const lower = [
        [330, 452],
        [224, 486],
        [165, 484],
        [100, 462],
      ];
      d.fill(
        blob([
          ...stripe.map((p, i) => (i % 3 ? p : [...p, 1])),
          ...lower.map((p, i) => (i % 3 ? p : [...p, 1])),
        ]),
        'signal red',
      );
      d.stroke(stripe, 7, { start: 1, end: 1 });
      d.stroke(lower, 7, { start: 1, end: 1 });
      d.stroke(
        [
          [212, 290],
          [214, 340],
        ],
        5,
        { start: 0.2, end: 0.2 },
      );
      d.stroke(
        [
          [224, 520],
          [231, 600],
          [233, 680],
        ],
        6,
        { start: 0.2, end: 0.3 },
      );
      d.stroke(
        [
          [196, 530],
          [208, 580],
        ],
        4,
        { start: 0.2, end: 0.1 },
      );
    },
  });
}

/**
 * The neck with its paler front.
 * @param {import('./drawing.mjs').Drawing} d drawing
 */
function drawNeck(d) {
  const neck = limb(
    [
      [672, 300, 62],
      [622, 396, 50],
      [598, 490, 46],
      [604, 590, 53],
      [626, 690, 64],
      [640, 800, 80],
    ],
    { end: false },
  );
  d.part(neck, 'heron plumage', {
    width: 10,
    inside: () => {
      const edge = [
        [700, 250],
        [644, 396],
        [616, 490],
        [624, 590],
        [650, 690],
        [672, 800],
      ];
      d.fill(
        blob([...edge.map((p, i) => (i % 5 ? p : [...p, 1])), [820, 800, 1], [820, 250, 1]]),
        'heron face',
      );
      d.stroke(edge, 6, { start: 1, end: 1 });
      for (const [x, y] of [
        [640, 440],
        [630, 500],
        [634, 560],
        [652, 634],
      ]) {
        d.stroke(
          [
            [x - 4, y],
            [x + 2, y + 22],
          ],
          6,
          { start: 0.7, end: 0.1 },
        );
      }
      for (const [x, y] of [
        [588, 448],
        [572, 516],
        [578, 586],
        [592, 650],
      ]) {
        d.stroke(
          [
            [x, y],
            [x + 10, y + 14],
            [x + 24, y + 16],
          ],
          5,
          { start: 0.2, end: 0.1 },
        );
      }
    },
  });
}

/**
 * The inside of the coat, seen through the slit.
 * @param {import('./drawing.mjs').Drawing} d drawing
 */
function drawLining(d) {
  d.part(
    blob([
      [560, 1150, 1],
      [820, 1150, 1],
      [800, 1452, 1],
      [700, 1466],
      [600, 1464, 1],
    ]),
    'signal red',
    {
      width: 8,
      inside: () => {
        d.stroke(
          [
            [690, 1290],
            [684, 1400],
          ],
          5,
          { start: 0.1, end: 0.2 },
        );
      },
    },
  );
}

/**
 * A claw at the end of a toe.
 * @param {import('./drawing.mjs').Drawing} d drawing
 * @param {number[]} root where it starts
 * @param {number[]} tip where it ends
 * @param {number} r half width
 */
function drawClaw(d, root, tip, r) {
  const [[x, y], [tx, ty]] = [root, tip];
  const [dx, dy] = [tx - x, ty - y];
  const len = Math.hypot(dx, dy);
  const [nx, ny] = [(-dy / len) * r, (dx / len) * r];
  d.part(
    blob([
      [x + nx, y + ny, 1],
      [x + dx * 0.6 + nx * 0.7, y + dy * 0.6 + ny * 0.7],
      [tx, ty, 1],
      [x + dx * 0.6 - nx * 0.7, y + dy * 0.6 - ny * 0.7],
      [x - nx, y - ny, 1],
      [x - dx * 0.15, y - dy * 0.15],
    ]),
    'tar black',
    { width: 6 },
  );
}

/**
 * A toe and its claw.
 * @param {import('./drawing.mjs').Drawing} d drawing
 * @param {number[][]} spine points with half widths, see limb
 * @param {number[]} claw tip of the claw
 */
function drawToe(d, spine, claw) {
  const tip = spine[spine.length - 1];
  d.part(limb(spine), 'heron legs', { width: 7, skip: [[3, 0]] });
  drawClaw(d, [tip[0], tip[1]], claw, tip[2] * 0.72);
}

/**
 * The leg that carries her.
 * @param {import('./drawing.mjs').Drawing} d drawing
 */
function drawStandingLeg(d) {
  drawToe(
    d,
    [
      [606, 1808, 15],
      [560, 1818, 12],
      [516, 1830, 11],
    ],
    [484, 1838],
  );
  d.part(
    limb([
      [622, 1400, 34],
      [618, 1500, 24],
      [614, 1590, 20],
      [612, 1630, 27],
      [610, 1668, 19],
      [608, 1740, 17],
      [608, 1810, 22],
    ]),
    'heron legs',
    {
      width: 8,
      inside: () => {
        for (const y of [1700, 1724, 1748])
          d.stroke(
            [
              [598, y],
              [610, y + 5],
            ],
            4,
            { end: 0.1 },
          );
        d.stroke(
          [
            [600, 1602],
            [612, 1614],
            [626, 1600],
          ],
          5,
          { start: 0.2, end: 0.2 },
        );
      },
    },
  );
  drawToe(
    d,
    [
      [616, 1812, 16],
      [676, 1816, 13],
      [738, 1832, 12],
    ],
    [772, 1842],
  );
  drawToe(
    d,
    [
      [606, 1820, 17],
      [600, 1842, 15],
      [580, 1862, 13],
    ],
    [560, 1886],
  );
  drawToe(
    d,
    [
      [614, 1820, 17],
      [640, 1842, 14],
      [672, 1862, 13],
    ],
    [696, 1884],
  );
}

/**
 * The folded leg, toes at the other shin.
 * @param {import('./drawing.mjs').Drawing} d drawing
 */
function drawLiftedLeg(d) {
  d.part(
    limb([
      [796, 1340, 30],
      [806, 1470, 27],
      [842, 1562, 22],
      [868, 1592, 26],
    ]),
    'heron legs',
    {
      width: 8,
    },
  );
  d.part(
    limb([
      [872, 1590, 26],
      [836, 1606, 20],
      [770, 1632, 17],
      [690, 1660, 20],
    ]),
    'heron legs',
    {
      width: 8,
      skip: [[3, 0]],
      inside: () => {
        for (const [x, y] of [
          [800, 1614],
          [778, 1622],
          [756, 1631],
        ]) {
          d.stroke(
            [
              [x, y],
              [x + 7, y + 12],
            ],
            4,
            { end: 0.1 },
          );
        }
      },
    },
  );
  drawToe(
    d,
    [
      [690, 1648, 15],
      [650, 1628, 12],
      [606, 1632, 12],
    ],
    [576, 1644],
  );
  drawToe(
    d,
    [
      [690, 1660, 16],
      [642, 1676, 13],
      [600, 1704, 12],
    ],
    [578, 1726],
  );
  drawToe(
    d,
    [
      [698, 1664, 16],
      [680, 1708, 13],
      [660, 1742, 12],
    ],
    [646, 1768],
  );
}

/**
 * The long coat, with seams, folds, pocket and buttons.
 * @param {import('./drawing.mjs').Drawing} d drawing
 */
function drawCoat(d) {
  const coat = blob([
    [560, 742, 1],
    [510, 766],
    [484, 830],
    [452, 940],
    [466, 1080],
    [446, 1220],
    [410, 1360],
    [376, 1478, 1],
    [456, 1508],
    [560, 1504],
    [646, 1516, 1],
    [668, 1380],
    [704, 1200, 1],
    [738, 1350],
    [764, 1504, 1],
    [830, 1488],
    [884, 1458, 1],
    [852, 1320],
    [816, 1180],
    [806, 1080],
    [836, 970],
    [834, 870],
    [800, 798],
    [730, 742, 1],
  ]);
  d.part(coat, 'heron coat', {
    width: 11,
    gaps: [[0.32, 7]],
    inside: () => {
      // front edge and the back seam
      d.stroke(
        [
          [690, 760],
          [724, 880],
          [728, 1040],
          [704, 1204],
        ],
        8,
        { start: 0.9, end: 0.9 },
      );
      d.stroke(
        [
          [470, 1090],
          [540, 1110],
          [600, 1106],
        ],
        6,
        { start: 0.8, end: 0.1 },
      );
      d.stroke(
        [
          [808, 1092],
          [776, 1108],
          [748, 1110],
        ],
        6,
        { start: 0.8, end: 0.1 },
      );
      d.stroke(
        [
          [480, 1290],
          [452, 1400],
          [440, 1470],
        ],
        6,
        { start: 0.1, end: 0.2 },
      );
      d.stroke(
        [
          [560, 1330],
          [548, 1420],
          [552, 1490],
        ],
        6,
        { start: 0.1, end: 0.3 },
      );
      d.stroke(
        [
          [812, 1300],
          [830, 1380],
          [836, 1450],
        ],
        6,
        { start: 0.1, end: 0.2 },
      );
      d.stroke(
        [
          [486, 1010],
          [500, 1050],
          [530, 1072],
        ],
        5,
        { start: 0.1, end: 0.1 },
      );
      drawPocket(d);
    },
  });
  for (const [x, y, r] of [
    [684, 872, 15],
    [690, 1052, 16],
    [682, 1136, 16],
  ])
    drawButton(d, x, y, r);
}

/**
 * A round button.
 * @param {import('./drawing.mjs').Drawing} d drawing
 * @param {number} x center
 * @param {number} y center
 * @param {number} r half width
 */
function drawButton(d, x, y, r) {
  d.part(oval(x, y, r * 0.92, r), 'brass', { width: 6 });
}

/**
 * The chest strap and its buckle.
 * @param {import('./drawing.mjs').Drawing} d drawing
 */
function drawStrap(d) {
  d.part(
    blob([
      [495, 797, 1],
      [542, 764, 1],
      [606, 868],
      [704, 944],
      [842, 1012, 1],
      [810, 1070, 1],
      [690, 998],
      [576, 914],
    ]),
    'leather',
    { width: 8 },
  );
  d.place({ x: 586, y: 886, turn: 44 }, () => {
    const frame = blob([
      [-34, -36, 1],
      [34, -36, 1],
      [34, 36, 1],
      [-34, 36, 1],
    ]);
    d.part(frame, 'brass', { width: 7 });
    d.part(
      blob([
        [-18, -20, 1],
        [18, -20, 1],
        [18, 20, 1],
        [-18, 20, 1],
      ]),
      'leather',
      { width: 6 },
    );
    d.part(
      limb(
        [
          [-26, 0, 6],
          [30, 0, 6],
        ],
        { start: true },
      ),
      'brass',
      { width: 5 },
    );
  });
}

/**
 * The pocket flap.
 * @param {import('./drawing.mjs').Drawing} d drawing
 */
function drawPocket(d) {
  d.part(
    blob([
      [500, 1170, 1],
      [560, 1182],
      [618, 1178, 1],
      [612, 1232],
      [598, 1246, 1],
      [548, 1246],
      [502, 1236, 1],
      [494, 1210],
    ]),
    'heron coat',
    {
      width: 7,
      gaps: [[0.35, 6]],
    },
  );
  drawButton(d, 556, 1216, 13);
}

/**
 * A feather that serves as a finger.
 * @param {import('./drawing.mjs').Drawing} d drawing
 * @param {number[][]} points contour
 * @param {object} [options] see Drawing.part
 */
function drawFinger(d, points, options = {}) {
  d.part(blob(points), 'heron plumage', { width: 7, ...options });
}

/**
 * The arm akimbo.
 * @param {import('./drawing.mjs').Drawing} d drawing
 */
function drawHipArm(d) {
  const sleeve = limb(
    [
      [760, 834, 52],
      [880, 904, 56],
      [938, 984, 54],
      [902, 1050, 46],
      [856, 1090, 44],
    ],
    { end: false },
  );
  // fingers rest on the hip, under the cuff
  drawFinger(
    d,
    [
      [862, 1080],
      [812, 1076],
      [752, 1096],
      [722, 1112, 1],
      [760, 1122],
      [820, 1116],
      [866, 1112],
    ],
    { skip: [[6, 0]] },
  );
  drawFinger(
    d,
    [
      [862, 1104],
      [812, 1110],
      [762, 1136],
      [738, 1158, 1],
      [776, 1160],
      [826, 1146],
      [872, 1128],
    ],
    { skip: [[6, 0]] },
  );
  drawFinger(
    d,
    [
      [868, 1120],
      [826, 1138],
      [790, 1172],
      [776, 1198, 1],
      [810, 1190],
      [850, 1164],
      [886, 1134],
    ],
    { skip: [[6, 0]] },
  );
  d.part(sleeve, 'heron coat', {
    width: 10,
    skip: [[3, 0]],
    tip: 0.4,
    inside: () => {
      d.stroke(
        [
          [930, 1000],
          [904, 990],
          [886, 996],
        ],
        6,
        { start: 0.7, end: 0.1 },
      );
      d.stroke(
        [
          [946, 1020],
          [912, 1016],
        ],
        5,
        { start: 0.7, end: 0.1 },
      );
    },
  });
  d.part(
    limb(
      [
        [906, 1046, 58],
        [876, 1078, 62],
        [846, 1104, 58],
      ],
      { end: false },
    ),
    'heron cuff',
    {
      width: 9,
    },
  );
  drawButton(d, 880, 1056, 12);
}

/**
 * The scarf: tail, wrap and knot.
 * @param {import('./drawing.mjs').Drawing} d drawing
 */
function drawScarf(d) {
  d.part(
    blob([
      [716, 770, 1],
      [772, 800],
      [790, 870],
      [772, 960, 1],
      [742, 972],
      [700, 958, 1],
      [712, 880],
      [690, 800, 1],
    ]),
    'heron scarf',
    {
      width: 8,
      inside: () => {
        const band = (y) => [
          [680, y - 6],
          [740, y + 8],
          [800, y - 8],
        ];
        d.fill(
          blob([
            ...band(884).map((p, i) => (i % 2 ? p : [...p, 1])),
            ...band(918)
              .reverse()
              .map((p, i) => (i % 2 ? p : [...p, 1])),
          ]),
          'cream',
        );
        d.stroke(band(884), 6, { start: 1, end: 1 });
        d.stroke(band(918), 6, { start: 1, end: 1 });
      },
    },
  );
  for (const [x, y] of [
    [714, 972],
    [738, 980],
    [761, 974],
  ]) {
    d.stroke(
      [
        [x, y],
        [x + 2, y + 24],
      ],
      6,
      { start: 0.9, end: 0.2 },
    );
  }
  d.part(
    blob([
      [540, 706],
      [600, 728],
      [670, 718],
      [716, 680],
      [748, 694],
      [752, 752],
      [712, 800],
      [630, 822],
      [556, 808],
      [522, 762],
    ]),
    'heron scarf',
    {
      width: 9,
      inside: () => {
        d.stroke(
          [
            [530, 752],
            [600, 780],
            [680, 768],
            [746, 716],
          ],
          7,
          { start: 0.2, end: 0.6 },
        );
        d.stroke(
          [
            [570, 794],
            [620, 804],
            [660, 800],
          ],
          5,
          { start: 0.1, end: 0.1 },
        );
        d.stroke(
          [
            [560, 730],
            [600, 746],
          ],
          5,
          { start: 0.1, end: 0.1 },
        );
      },
    },
  );
  d.part(
    blob([
      [690, 756],
      [728, 744],
      [756, 766],
      [752, 806],
      [716, 822],
      [686, 800],
    ]),
    'heron scarf',
    { width: 8 },
  );
  d.stroke(
    [
      [704, 776],
      [722, 782],
      [736, 776],
    ],
    5,
    { start: 0.2, end: 0.1 },
  );
}

/**
 * The head without the hat.
 * @param {import('./drawing.mjs').Drawing} d drawing
 * @param {'aloof' | 'squawk'} mood expression
 */
function drawHead(d, mood) {
  const squawk = mood === 'squawk';
  const head = blob([
    [596, 250],
    [622, 186],
    [690, 156],
    [766, 172],
    [810, 232],
    [800, 296],
    [740, 342],
    [660, 352],
    [612, 314],
  ]);
  d.part(head, 'heron plumage', {
    width: 10,
    skip: [[7, 8]],
    inside: () => {
      d.part(
        blob([
          [820, 180, 1],
          [820, 330, 1],
          [730, 392],
          [704, 392, 1],
          [692, 348],
          [664, 334, 1],
          [666, 312],
          [636, 316, 1],
          [648, 284],
          [632, 268, 1],
          [650, 232],
          [690, 190],
        ]),
        'heron face',
        { width: 6 },
      );
    },
  });
  if (squawk) drawOpenBeak(d);
  else drawShutBeak(d);
  const eye = {
    swatch: 'amber iris',
    lid: 'heron plumage',
    upper: squawk ? 0 : 0.3,
    slant: 6,
    shiny: !squawk,
  };
  d.part(
    blob([
      [742, 206, 1],
      [700, 176],
      [640, 196],
      [596, 244, 1],
      [650, 240],
      [700, 226],
    ]),
    'heron plumes',
    { width: 6 },
  );
  drawEye(d, { ...eye, x: 768, y: 238, rx: 27, ry: 37, look: squawk ? [4, 0] : [5, 5], iris: 20 });
  if (!squawk) drawBeakTop(d);
  drawEye(d, {
    ...eye,
    x: 702,
    y: 244,
    rx: 36,
    ry: 42,
    look: squawk ? [6, 0] : [9, 5],
    iris: squawk ? 19 : 24,
  });
}

/**
 * The lower half of the shut beak.
 * @param {import('./drawing.mjs').Drawing} d drawing
 */
function drawShutBeak(d) {
  d.part(
    blob([
      [716, 312, 1],
      [760, 338],
      [850, 362],
      [950, 374],
      [1052, 378, 1],
      [930, 340],
      [800, 310],
    ]),
    'heron beak',
    { width: 8 },
  );
}

/**
 * The upper half of the beak.
 * @param {import('./drawing.mjs').Drawing} d drawing
 * @param {number[][]} [gaps] openings, see inkLine
 */
function drawBeakTop(d, gaps = [[0.3, 6]]) {
  d.part(
    blob([
      [698, 312],
      [710, 288],
      [742, 268],
      [786, 270],
      [850, 294],
      [950, 336],
      [1082, 384, 1],
      [950, 360],
      [850, 340],
      [776, 324],
      [724, 330],
    ]),
    'heron beak',
    {
      width: 9,
      gaps,
      inside: () => {
        d.stroke(
          [
            [812, 302],
            [838, 310],
            [858, 320],
          ],
          7,
          { start: 0.2, end: 0.1 },
        );
      },
    },
  );
  d.stroke(
    [
      [692, 296],
      [692, 318],
      [706, 334],
    ],
    7,
    { start: 0.2, end: 0.2 },
  );
}

/**
 * The beak wide open, tongue out.
 * @param {import('./drawing.mjs').Drawing} d drawing
 */
function drawOpenBeak(d) {
  d.part(
    blob([
      [716, 316, 1],
      [790, 300],
      [868, 300, 1],
      [838, 340],
      [824, 396, 1],
      [760, 366],
    ]),
    'mouth',
    { width: 8 },
  );
  d.place({ x: 716, y: 316, turn: 20 }, () =>
    d.place({ x: -716, y: -316 }, () => {
      d.part(
        blob([
          [702, 322, 1],
          [744, 352],
          [850, 376],
          [950, 384],
          [1020, 382, 1],
          [930, 356],
          [812, 336],
          [746, 326],
        ]),
        'heron beak',
        { width: 9 },
      );
    }),
  );
  d.part(
    blob([
      [760, 338],
      [800, 334],
      [862, 366],
      [902, 410, 1],
      [850, 396],
      [790, 366],
    ]),
    'tongue',
    { width: 7 },
  );
  d.place({ x: 716, y: 300, turn: -15 }, () =>
    d.place({ x: -716, y: -300 }, () => {
      drawBeakTop(d, []);
    }),
  );
}

/**
 * The sou'wester: brim, crown and band.
 * @param {import('./drawing.mjs').Drawing} d drawing
 */
function drawHat(d) {
  const brim = blob([
    [500, 352, 1],
    [520, 290],
    [566, 226],
    [630, 178],
    [700, 150],
    [770, 148],
    [830, 172],
    [850, 208],
    [820, 216],
    [756, 186],
    [690, 184],
    [630, 214],
    [592, 278],
    [566, 344],
  ]);
  d.part(brim, 'heron hat', {
    width: 10,
    inside: () => {
      d.stroke(
        [
          [540, 300],
          [580, 250],
          [620, 212],
        ],
        5,
        { start: 0.1, end: 0.2 },
      );
    },
  });
  const crown = blob([
    [566, 232, 1],
    [560, 150],
    [612, 84],
    [690, 58],
    [760, 82],
    [800, 150, 1],
    [740, 142],
    [680, 152],
    [620, 184],
  ]);
  d.part(crown, 'heron hat', {
    width: 10,
    inside: () => {
      const top = [
        [540, 200],
        [610, 144],
        [690, 112],
        [820, 110],
      ];
      const low = [
        [820, 180],
        [690, 150],
        [620, 184],
        [550, 250],
      ];
      d.fill(
        blob([
          ...top.map((p, i) => (i % 3 ? p : [...p, 1])),
          ...low.map((p, i) => (i % 3 ? p : [...p, 1])),
        ]),
        'harbour blue',
      );
      d.stroke(top, 7, { start: 1, end: 1 });
      d.stroke(
        [
          [690, 112],
          [672, 84],
          [684, 60],
        ],
        6,
        { start: 0.9, end: 0.9 },
      );
    },
  });
}

/**
 * The arm that holds the oar, fingers over the shaft.
 * @param {import('./drawing.mjs').Drawing} d drawing
 */
function drawOarArm(d) {
  // palm behind the shaft is hidden; fingers close over it
  const sleeve = limb(
    [
      [538, 826, 58],
      [440, 932, 56],
      [356, 1000, 50],
      [316, 962, 44],
      [298, 896, 42],
    ],
    { end: false },
  );
  d.part(sleeve, 'heron coat', {
    width: 10,
    skip: [[3, 0]],
    tip: 0.4,
    inside: () => {
      d.stroke(
        [
          [352, 1000],
          [384, 984],
          [398, 964],
        ],
        6,
        { start: 0.7, end: 0.1 },
      );
      d.stroke(
        [
          [340, 980],
          [366, 962],
        ],
        5,
        { start: 0.7, end: 0.1 },
      );
    },
  });
  const fingers = [
    [
      [300, 796],
      [262, 784],
      [214, 790],
      [196, 804, 1],
      [220, 818],
      [262, 822],
      [304, 826],
    ],
    [
      [306, 824],
      [262, 814],
      [208, 822],
      [190, 838, 1],
      [216, 852],
      [262, 854],
      [310, 858],
    ],
    [
      [312, 856],
      [266, 848],
      [216, 858],
      [200, 874, 1],
      [226, 886],
      [268, 888],
      [318, 892],
    ],
  ];
  d.part(
    blob([
      [270, 800],
      [300, 786],
      [330, 812],
      [342, 880],
      [300, 906],
      [268, 880],
    ]),
    'heron plumage',
    { width: 8 },
  );
  for (const f of [...fingers].reverse()) drawFinger(d, f, { skip: [[6, 0]] });
  d.part(
    limb(
      [
        [318, 934, 52],
        [306, 902, 55],
        [298, 872, 52],
      ],
      { end: false },
    ),
    'heron cuff',
    {
      width: 9,
    },
  );
  drawButton(d, 330, 898, 12);
}

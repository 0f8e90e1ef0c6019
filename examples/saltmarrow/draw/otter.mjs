/**
 * The otter: deckhand turned pilot, rope coil on the shoulder, lantern held high.
 */

import { drawBrow, drawEye } from './face.mjs';
import { blob, curve, limb, oval } from './pen.mjs';

/**
 * Draws the otter, boots at about y 1850.
 * @param {import('./drawing.mjs').Drawing} d drawing
 */
export function drawOtter(d) {
  d.place({ x: -50 }, () => {
    drawTail(d);
    drawBoot(d, false);
    drawBoot(d, true);
    drawSweater(d);
    drawOveralls(d);
    drawRope(d, TURNS);
    drawLanternArm(d);
    drawShoulderStrap(d);
    drawRopeArm(d);
    drawCollar(d);
    d.place({ x: 1498, y: 862, turn: 3 }, () => drawOtterHead(d, 'grin'));
  });
}

/**
 * The tail, curling out behind the boots.
 * @param {import('./drawing.mjs').Drawing} d drawing
 */
function drawTail(d) {
  d.part(
    limb([
      [1430, 1520, 96],
      [1330, 1640, 92],
      [1240, 1738, 76],
      [1150, 1768, 56],
      [1082, 1720, 36],
      [1066, 1640, 14],
    ]),
    'otter fur',
    {
      width: 10,
      inside: () => {
        d.band(
          [
            [1340, 1760],
            [1200, 1812],
            [1120, 1800],
            [1062, 1752],
            [1062, 1620],
          ].reverse(),
          [
            [1400, 1860],
            [1200, 1900],
            [1040, 1840],
            [1000, 1700],
            [1020, 1600],
          ].reverse(),
          'otter belly',
          6,
        );
        for (const [x, y] of [
          [1262, 1640],
          [1236, 1676],
          [1206, 1700],
          [1292, 1690],
        ]) {
          d.stroke(
            [
              [x, y],
              [x - 12, y + 20],
              [x - 28, y + 30],
            ],
            6,
            { start: 0.2, end: 0.1 },
          );
        }
      },
    },
  );
}

/**
 * One sea boot with a folded top; the right one is the mirrored left one, turned out less.
 * @param {import('./drawing.mjs').Drawing} d drawing
 * @param {boolean} right whether it is the right one
 */
function drawBoot(d, right) {
  const place = right ? { x: 2966, flip: true } : {};
  d.place(place, () => {
    d.part(
      blob([
        [1318, 1650, 1],
        [1448, 1650, 1],
        [1452, 1740],
        [1458, 1806],
        [1452, 1836, 1],
        [1330, 1846],
        [1226, 1850],
        [1200, 1836],
        [1206, 1790],
        [1246, 1756],
        [1300, 1736],
        [1322, 1706],
      ]),
      'otter boots',
      {
        width: 10,
        gaps: right ? [[0.86, 7]] : [],
        inside: () => {
          d.band(
            [
              [1180, 1806],
              [1260, 1816],
              [1360, 1812],
              [1480, 1796],
            ],
            [
              [1180, 1870],
              [1300, 1880],
              [1400, 1870],
              [1480, 1860],
            ],
            'tar black',
            7,
          );
          d.stroke(
            [
              [1312, 1746],
              [1340, 1752],
              [1358, 1746],
            ],
            6,
            { start: 0.2, end: 0.1 },
          );
          d.stroke(
            [
              [1336, 1716],
              [1364, 1724],
            ],
            5,
            { start: 0.2, end: 0.1 },
          );
          d.stroke(
            [
              [1238, 1780],
              [1254, 1768],
              [1276, 1764],
            ],
            6,
            { start: 0.2, end: 0.1 },
          );
        },
      },
    );
    d.part(
      blob([
        [1302, 1624, 1],
        [1384, 1640],
        [1462, 1626, 1],
        [1468, 1670],
        [1462, 1700, 1],
        [1384, 1712],
        [1306, 1698, 1],
        [1296, 1662],
      ]),
      'boot tops',
      {
        width: 9,
        inside: () =>
          d.stroke(
            [
              [1326, 1656],
              [1330, 1682],
            ],
            5,
            { start: 0.2, end: 0.1 },
          ),
      },
    );
  });
}

/**
 * The body of the sweater.
 * @param {import('./drawing.mjs').Drawing} d drawing
 */
function drawSweater(d) {
  d.part(
    blob([
      [1400, 1030],
      [1342, 1070],
      [1304, 1170],
      [1280, 1300],
      [1286, 1420, 1],
      [1700, 1420, 1],
      [1704, 1300],
      [1682, 1170],
      [1650, 1070],
      [1590, 1030],
    ]),
    'otter sweater',
    {
      width: 10,
      inside: () => {
        for (const [x, y] of [
          [1620, 1190],
          [1648, 1250],
          [1660, 1300],
          [1636, 1290],
          [1612, 1250],
        ]) {
          d.stroke(
            [
              [x, y],
              [x + 8, y + 10],
              [x + 18, y],
            ],
            5,
            { start: 0.3, end: 0.2 },
          );
        }
      },
    },
  );
}

/**
 * Trousers, bib, pocket and the patch.
 * @param {import('./drawing.mjs').Drawing} d drawing
 */
function drawOveralls(d) {
  const pants = blob([
    [1370, 1178, 1],
    [1495, 1192],
    [1622, 1178, 1],
    [1634, 1280],
    [1712, 1330, 1],
    [1728, 1440],
    [1716, 1560],
    [1668, 1662, 1],
    [1590, 1672],
    [1516, 1660, 1],
    [1512, 1606],
    [1486, 1552, 1],
    [1460, 1606],
    [1454, 1660, 1],
    [1380, 1672],
    [1298, 1662, 1],
    [1258, 1560],
    [1252, 1440],
    [1268, 1330, 1],
    [1356, 1280],
  ]);
  d.part(pants, 'otter overalls', {
    width: 10,
    gaps: [[0.28, 8]],
    inside: () => {
      d.stroke(
        [
          [1260, 1352],
          [1360, 1376],
          [1500, 1382],
          [1640, 1374],
          [1720, 1350],
        ],
        7,
        { start: 0.8, end: 0.8 },
      );
      d.stroke(
        [
          [1484, 1566],
          [1490, 1480],
          [1496, 1384],
        ],
        7,
        { start: 0.9, end: 0.3 },
      );
      d.stroke(
        [
          [1472, 1566],
          [1440, 1556],
          [1412, 1560],
        ],
        6,
        { start: 0.7, end: 0.1 },
      );
      d.stroke(
        [
          [1500, 1572],
          [1530, 1560],
          [1560, 1562],
        ],
        6,
        { start: 0.7, end: 0.1 },
      );
      d.stroke(
        [
          [1306, 1636],
          [1340, 1640],
          [1366, 1630],
        ],
        6,
        { start: 0.5, end: 0.1 },
      );
      d.stroke(
        [
          [1676, 1632],
          [1640, 1640],
          [1612, 1632],
        ],
        6,
        { start: 0.5, end: 0.1 },
      );
    },
  });
  d.part(
    blob([
      [1428, 1246, 1],
      [1496, 1254],
      [1564, 1246, 1],
      [1566, 1300],
      [1554, 1340, 1],
      [1496, 1350],
      [1438, 1340, 1],
      [1426, 1300],
    ]),
    'overall trim',
    {
      width: 7,
      gaps: [[0.45, 6]],
      inside: () => {
        d.stroke(
          [
            [1420, 1272],
            [1496, 1282],
            [1580, 1272],
          ],
          6,
          { start: 0.9, end: 0.9 },
        );
      },
    },
  );
  // a patch on the knee
  d.part(
    blob([
      [1322, 1486, 1],
      [1376, 1474],
      [1418, 1486, 1],
      [1424, 1532],
      [1416, 1566, 1],
      [1368, 1574],
      [1324, 1562, 1],
      [1314, 1524],
    ]),
    'sea green',
    { width: 7 },
  );
  for (const [x, y, dx, dy] of [
    [1314, 1500, 18, 2],
    [1312, 1540, 18, -2],
    [1426, 1506, -18, 2],
    [1428, 1544, -18, -2],
    [1350, 1468, 2, 18],
    [1392, 1466, -2, 18],
    [1350, 1580, 2, -18],
    [1394, 1580, -2, -18],
  ]) {
    d.stroke(
      [
        [x, y],
        [x + dx, y + dy],
      ],
      5,
      { start: 0.7, end: 0.7 },
    );
  }
}

/** Strands of the rope coil, outer to inner: over the shoulder, down the chest, and back up. */
const TURNS = [
  [
    [1420, 1050],
    [1426, 1150],
    [1424, 1280],
    [1396, 1400],
    [1330, 1446],
    [1262, 1392],
    [1238, 1270],
  ],
  [
    [1398, 1050],
    [1392, 1150],
    [1392, 1270],
    [1376, 1356],
    [1328, 1404],
    [1280, 1352],
    [1262, 1260],
  ],
  [
    [1380, 1056],
    [1358, 1150],
    [1360, 1250],
    [1350, 1310],
    [1324, 1358],
    [1296, 1320],
    [1284, 1250],
  ],
];

/**
 * The rope coil: drawn whole under the sleeve, then its upper half again over the sleeve, as
 * the arm goes through the coil.
 * @param {import('./drawing.mjs').Drawing} d drawing
 * @param {number[][][]} strands middle lines of the strands
 */
function drawRope(d, strands) {
  for (const strand of strands) {
    d.part(
      limb(
        strand.map(([x, y]) => [x, y, 17]),
        { end: false },
      ),
      'rope',
      {
        width: 7,
        inside: () => {
          const { line } = curve(strand);
          for (let i = 8; i < line.length - 4; i += 11) {
            const [[ax, ay], [x, y]] = [line[i - 1], line[i]];
            const len = Math.hypot(x - ax, y - ay);
            const [ux, uy] = [(x - ax) / len, (y - ay) / len];
            const twist = [
              [-5, 5],
              [-1, 1],
              [1, -1],
              [5, -5],
            ].map(([u, v]) => [x + ux * u - uy * v, y + uy * u + ux * v]);
            d.stroke(twist, 5, { start: 0.4, end: 0.3 });
          }
        },
      },
    );
  }
}

/**
 * A paw finger with a claw-less round tip.
 * @param {import('./drawing.mjs').Drawing} d drawing
 * @param {number[][]} spine points with half widths, see limb
 * @param {object} [options] see Drawing.part
 */
function drawDigit(d, spine, options = {}) {
  d.part(limb(spine), 'otter fur', { width: 7, skip: [[3, 0]], ...options });
}

/**
 * The signal lantern, hanging from the origin.
 * @param {import('./drawing.mjs').Drawing} d drawing
 */
function drawLantern(d) {
  const metal = (points, width = 8) => d.part(blob(points), 'lantern metal', { width });
  d.part(
    limb([
      [-70, 146, 7],
      [-74, 60, 7],
      [-40, 12, 7],
      [0, 0, 7],
      [40, 12, 7],
      [74, 60, 7],
      [70, 146, 7],
    ]),
    'brass',
    { width: 6 },
  );
  metal([
    [-26, 66, 1],
    [0, 60],
    [26, 66, 1],
    [30, 104, 1],
    [-30, 104, 1],
  ]);
  d.part(
    blob([
      [-60, 150, 1],
      [60, 150, 1],
      [74, 210],
      [62, 276, 1],
      [-62, 276, 1],
      [-74, 210],
    ]),
    'lantern glass',
    {
      width: 8,
      inside: () => {
        d.part(
          blob([
            [2, 168, 1],
            [22, 208],
            [26, 236],
            [0, 258],
            [-26, 236],
            [-18, 208],
          ]),
          'lantern flame',
          { width: 6, gaps: [[0.55, 5]] },
        );
        d.stroke(
          [
            [-54, 196],
            [-56, 224],
          ],
          5,
          { start: 0.2, end: 0.1 },
        );
      },
    },
  );
  for (const x of [-44, 44]) {
    d.part(
      limb(
        [
          [x * 0.9, 140, 8],
          [x * 1.1, 212, 8],
          [x * 0.94, 288, 8],
        ],
        { end: false },
      ),
      'lantern metal',
      { width: 6 },
    );
  }
  metal(
    [
      [-86, 150, 1],
      [-66, 112],
      [-36, 96],
      [36, 96],
      [66, 112],
      [86, 150, 1],
      [0, 160],
    ],
    9,
  );
  d.part(
    blob([
      [-72, 272, 1],
      [0, 280],
      [72, 272, 1],
      [84, 322, 1],
      [0, 332],
      [-84, 322, 1],
    ]),
    'lantern metal',
    {
      width: 9,
      inside: () =>
        d.band(
          [
            [-100, 296],
            [0, 304],
            [100, 296],
          ],
          [
            [-100, 350],
            [0, 360],
            [100, 350],
          ],
          'brass',
          6,
        ),
    },
  );
}

/**
 * The raised arm with the lantern.
 * @param {import('./drawing.mjs').Drawing} d drawing
 */
function drawLanternArm(d) {
  d.part(
    limb(
      [
        [1604, 1118, 56],
        [1706, 1186, 66],
        [1784, 1192, 62],
        [1836, 1112, 54],
        [1874, 1038, 46],
      ],
      { end: false },
    ),
    'otter sweater',
    {
      width: 10,
      skip: [[3, 0]],
      tip: 0.4,
      inside: () => {
        d.stroke(
          [
            [1744, 1132],
            [1772, 1146],
            [1782, 1166],
          ],
          6,
          { start: 0.7, end: 0.1 },
        );
        d.stroke(
          [
            [1780, 1124],
            [1790, 1136],
          ],
          5,
          { start: 0.7, end: 0.1 },
        );
        for (const [x, y] of [
          [1690, 1180],
          [1730, 1208],
          [1776, 1216],
          [1820, 1150],
        ]) {
          d.stroke(
            [
              [x, y],
              [x + 8, y + 10],
              [x + 18, y],
            ],
            5,
            { start: 0.3, end: 0.2 },
          );
        }
      },
    },
  );
  d.part(
    blob([
      [1862, 1010],
      [1858, 960],
      [1878, 924],
      [1918, 914],
      [1950, 936],
      [1954, 980],
      [1936, 1016],
      [1900, 1034],
    ]),
    'otter fur',
    { width: 9 },
  );
  d.part(
    limb(
      [
        [1846, 1064, 56],
        [1868, 1026, 58],
        [1886, 996, 52],
      ],
      { end: false },
    ),
    'otter collar',
    {
      width: 9,
      inside: () => {
        for (const k of [-30, -8, 14, 36]) {
          d.stroke(
            [
              [1852 + k, 1052 + k * 0.5],
              [1874 + k, 1016 + k * 0.5],
            ],
            5,
            { start: 0.2, end: 0.2 },
          );
        }
      },
    },
  );
  d.place({ x: 1934, y: 976 }, () => drawLantern(d));
  // four fingers curl over the bail
  for (const [x, y] of [
    [1964, 958],
    [1940, 946],
    [1914, 946],
    [1890, 956],
  ]) {
    drawDigit(
      d,
      [
        [x - 2, y - 22, 17],
        [x, y + 8, 18],
        [x - 6, y + 28, 15],
      ],
      { skip: [] },
    );
  }
  d.part(
    blob([
      [1870, 1004],
      [1866, 960],
      [1884, 922],
      [1922, 910],
      [1962, 922],
      [1982, 944],
      [1960, 950],
      [1930, 944],
      [1900, 952],
      [1884, 980],
    ]),
    'otter fur',
    {
      width: 9,
      skip: [[5, 9]],
    },
  );
}

/**
 * The shoulder strap on the lantern's side; the other one is hidden by the rope.
 * @param {import('./drawing.mjs').Drawing} d drawing
 */
function drawShoulderStrap(d) {
  d.part(
    limb([
      [1630, 1020, 24],
      [1614, 1110, 24],
      [1594, 1210, 25],
    ]),
    'overall trim',
    {
      width: 8,
      gaps: [[0.16, 7]],
      inside: () =>
        d.stroke(
          [
            [1616, 1110],
            [1598, 1196],
          ],
          5,
          { start: 0.1, end: 0.1 },
        ),
    },
  );
  d.part(oval(1594, 1210, 16), 'brass', { width: 6 });
}

/**
 * The arm through the rope coil, paw on the strands.
 * @param {import('./drawing.mjs').Drawing} d drawing
 */
function drawRopeArm(d) {
  d.part(
    limb(
      [
        [1380, 1120, 52],
        [1262, 1206, 66],
        [1220, 1300, 64],
        [1270, 1340, 54],
        [1334, 1318, 46],
      ],
      { end: false },
    ),
    'otter sweater',
    {
      width: 10,
      skip: [[3, 0]],
      tip: 0.4,
      inside: () => {
        d.stroke(
          [
            [1276, 1274],
            [1256, 1296],
            [1236, 1300],
          ],
          6,
          { start: 0.7, end: 0.1 },
        );
        d.stroke(
          [
            [1288, 1290],
            [1276, 1306],
          ],
          5,
          { start: 0.7, end: 0.1 },
        );
        for (const [x, y] of [
          [1230, 1200],
          [1200, 1250],
          [1250, 1230],
          [1196, 1310],
          [1236, 1358],
        ]) {
          d.stroke(
            [
              [x, y],
              [x + 8, y + 10],
              [x + 18, y],
            ],
            5,
            { start: 0.3, end: 0.2 },
          );
        }
      },
    },
  );
  drawRope(
    d,
    TURNS.map((turn) => [...turn.slice(0, 2), [turn[2][0], 1300]]),
  );
  d.part(
    blob([
      [1330, 1286],
      [1372, 1262],
      [1410, 1266],
      [1424, 1300],
      [1410, 1338],
      [1366, 1354],
      [1334, 1344],
    ]),
    'otter fur',
    { width: 9 },
  );
  drawDigit(d, [
    [1392, 1280, 17],
    [1420, 1264, 17],
    [1444, 1262, 15],
  ]);
  drawDigit(d, [
    [1398, 1302, 17],
    [1430, 1294, 17],
    [1454, 1296, 15],
  ]);
  drawDigit(d, [
    [1394, 1326, 17],
    [1424, 1324, 17],
    [1446, 1330, 14],
  ]);
  drawDigit(d, [
    [1366, 1276, 18],
    [1378, 1244, 17],
    [1398, 1226, 14],
  ]);
  d.part(
    limb(
      [
        [1296, 1336, 54],
        [1328, 1322, 56],
        [1352, 1310, 50],
      ],
      { end: false },
    ),
    'otter collar',
    {
      width: 9,
      inside: () => {
        for (const k of [-32, -10, 12, 34]) {
          d.stroke(
            [
              [1308 + k * 0.4, 1330 + k],
              [1342 + k * 0.4, 1314 + k],
            ],
            5,
            { start: 0.2, end: 0.2 },
          );
        }
      },
    },
  );
}

/**
 * The rolled collar.
 * @param {import('./drawing.mjs').Drawing} d drawing
 */
function drawCollar(d) {
  d.part(
    blob([
      [1356, 1020],
      [1400, 990],
      [1500, 1004],
      [1600, 988],
      [1640, 1014],
      [1646, 1062],
      [1604, 1098],
      [1500, 1114],
      [1396, 1100],
      [1350, 1066],
    ]),
    'otter collar',
    {
      width: 10,
      inside: () => {
        for (let x = 1384; x < 1640; x += 34) {
          d.stroke(
            [
              [x, 1044],
              [x + (1500 - x) * 0.05, 1086],
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
 * The otter's head around its own origin.
 * @param {import('./drawing.mjs').Drawing} d drawing
 * @param {'grin' | 'wink'} mood expression
 */
export function drawOtterHead(d, mood) {
  for (const [x, inner] of [
    [-190, -5],
    [194, 3],
  ]) {
    d.part(oval(x, -92, 42, 42), 'otter fur', {
      width: 9,
      inside: () => d.part(oval(x + inner, -86, 22, 23), 'otter pads', { width: 6 }),
    });
  }
  d.part(
    blob([
      [4, -172],
      [-104, -160],
      [-186, -96],
      [-218, 0],
      [-246, 56, 1],
      [-208, 62],
      [-226, 104, 1],
      [-184, 118],
      [-110, 168],
      [0, 184],
      [112, 168],
      [186, 114],
      [230, 98, 1],
      [212, 58],
      [248, 48, 1],
      [222, -4],
      [190, -96],
      [110, -160],
    ]),
    'otter fur',
    {
      width: 11,
      inside: () => {
        for (const [x, y] of [
          [-168, -6],
          [-150, 20],
          [186, -10],
          [170, 18],
        ]) {
          d.stroke(
            [
              [x, y],
              [x + Math.sign(x) * -4, y + 14],
              [x + Math.sign(x) * 8, y + 26],
            ],
            6,
            { start: 0.2, end: 0.1 },
          );
        }
      },
    },
  );
  d.part(
    blob([
      [-34, -160, 1],
      [-62, -196],
      [-58, -240, 1],
      [-30, -214],
      [-6, -222],
      [2, -278, 1],
      [26, -222],
      [44, -216],
      [76, -240, 1],
      [66, -196],
      [46, -158, 1],
      [6, -146],
    ]),
    'otter fur',
    {
      width: 9,
      skip: [[10, 0]],
    },
  );
  d.stroke(
    [
      [-4, -200],
      [2, -178],
    ],
    5,
    { start: 0.2, end: 0.2 },
  );
  // chin and mouth lie under the cheeks of the muzzle
  d.part(
    blob([
      [-92, 74],
      [24, 50],
      [140, 72],
      [122, 146],
      [76, 184],
      [24, 196],
      [-30, 186],
      [-76, 150],
    ]),
    'otter muzzle',
    { width: 9 },
  );
  d.part(
    blob([
      [-58, 84],
      [24, 70],
      [106, 80],
      [104, 116],
      [72, 154],
      [24, 170],
      [-26, 156],
      [-56, 120],
    ]),
    'mouth',
    {
      width: 8,
      inside: () => d.part(oval(30, 162, 50, 34), 'tongue', { width: 6 }),
    },
  );
  d.part(
    blob([
      [0, 92, 1],
      [24, 96],
      [48, 92, 1],
      [46, 122],
      [24, 126],
      [4, 122],
    ]),
    'cream',
    { width: 6 },
  );
  d.part(
    blob([
      [22, -16],
      [84, -6],
      [136, 44],
      [134, 88],
      [92, 108],
      [50, 106],
      [24, 88, 1],
      [-2, 106],
      [-44, 110],
      [-88, 90],
      [-92, 44],
      [-40, -6],
    ]),
    'otter muzzle',
    {
      width: 9,
      inside: () => {
        d.stroke(
          [
            [24, 20],
            [26, 50],
            [24, 92],
          ],
          7,
          { start: 0.9, end: 0.9 },
        );
        for (const [x, y] of [
          [-46, 52],
          [-28, 70],
          [-56, 76],
          [90, 50],
          [76, 70],
          [104, 74],
        ]) {
          d.spot(oval(x, y, 5, 5));
        }
      },
    },
  );
  for (const [a, b, c] of [
    [
      [-74, 56],
      [-160, 40],
      [-262, 60],
    ],
    [
      [-72, 70],
      [-160, 82],
      [-250, 128],
    ],
    [
      [118, 54],
      [190, 36],
      [286, 50],
    ],
    [
      [116, 68],
      [190, 78],
      [272, 118],
    ],
  ]) {
    d.stroke([a, b, c], 6, { start: 0.5, end: 0.1, ramp: 200 });
  }
  d.part(
    blob([
      [24, -42],
      [66, -42],
      [80, -18],
      [56, 14],
      [24, 26],
      [-8, 14],
      [-32, -18],
      [-18, -42],
    ]),
    'otter nose',
    {
      width: 9,
      inside: () =>
        d.stroke(
          [
            [-8, -24],
            [10, -30],
            [34, -30],
          ],
          6,
          { start: 0.2, end: 0.2 },
        ),
    },
  );
  drawEye(d, {
    x: -72,
    y: -60,
    rx: 38,
    ry: 46,
    look: [6, 4],
    iris: 31,
    swatch: 'green iris',
    lid: 'otter fur',
    lower: 0.13,
  });
  drawBrow(
    d,
    [
      [-122, -112, 6],
      [-86, -134, 10],
      [-44, -140, 10],
    ],
    'otter nose',
  );
  if (mood === 'wink') {
    d.stroke(
      [
        [74, -50],
        [104, -76],
        [142, -62],
      ],
      11,
      { start: 0.4, end: 0.3 },
    );
    d.stroke(
      [
        [84, -44],
        [108, -40],
      ],
      6,
      { start: 0.2, end: 0.1 },
    );
    drawBrow(
      d,
      [
        [76, -106, 9],
        [112, -112, 10],
        [152, -98, 5],
      ],
      'otter nose',
    );
  } else {
    drawEye(d, {
      x: 112,
      y: -62,
      rx: 35,
      ry: 46,
      look: [4, 4],
      iris: 30,
      swatch: 'green iris',
      lid: 'otter fur',
      lower: 0.13,
    });
    drawBrow(
      d,
      [
        [84, -146, 10],
        [122, -142, 10],
        [156, -118, 6],
      ],
      'otter nose',
    );
  }
}

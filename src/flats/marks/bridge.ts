import { askedBridge, leadsBetween } from '../../gaps/asked.ts';
import type { Point } from '../../raster/types.ts';
import { polylinePixels } from '../../runs/polyline.ts';
import { checkedGap, listPoints } from './geometry.ts';
import type { MarkType, NotedMark } from './mark-type.ts';

/** A gap between two points that is closed, however unlikely it looks. */
export interface BridgeMark extends NotedMark {
  readonly bridge: readonly [Point, Point];
}

/** Longer bridges, in stroke widths, are noted: chosen, gaps that people close are far shorter. */
const LONG = 12;

export const bridge: MarkType<BridgeMark> = {
  lays: false,
  reshapes: true,
  ofGap: true,
  check: checkedGap,
  points: (mark) => listPoints('bridge', mark.bridge),
  move: (mark, to) => ({ ...mark, bridge: [to(mark.bridge[0]), to(mark.bridge[1])] }),
  wish: (mark, wishes) => {
    wishes.bridge.push(mark.bridge);
  },
  act: (mark, acting) => {
    const { width, height } = acting.regions;
    const { ink } = acting;
    let line = mark.bridge;
    if (ink !== undefined) {
      const asked = askedBridge({ data: ink, width, height, channels: 1 }, mark.bridge, 0);
      line = [
        [asked.fromX, asked.fromY],
        [asked.toX, asked.toY],
      ];
      const off = offInk(line, ink, width);
      if (off !== undefined) acting.note(off);
    }
    if (acting.regions.cut(polylinePixels(line, width, height))) return;
    acting.note('the bridge divides no region');
  },
  look: (mark, { bridges, ink, width }) => {
    const drawn = bridges.find(({ drawn, from, to, width: stroke }) => {
      return drawn && leadsBetween(from, to, stroke, mark.bridge);
    });
    if (drawn === undefined) return undefined;
    const off = offInk([drawn.from, drawn.to], ink, width);
    if (off !== undefined) return off;
    const stroke = Math.max(1, drawn.width);
    if (drawn.length <= LONG * stroke) return undefined;
    const times = Math.round(drawn.length / stroke);
    return `the bridge is ${Math.round(drawn.length)} px long, ${times} times the stroke width`;
  },
};

/** What to say of a bridge of which an end lies on bare paper. */
function offInk(ends: readonly Point[], ink: Uint8Array, width: number): string | undefined {
  const bare = ends.find(([x, y]) => ink[Math.floor(y) * width + Math.floor(x)] === 0);
  if (bare === undefined) return undefined;
  const at = bare.map(Math.floor).join(', ');
  return `the bridge ends on bare paper at [${at}], with no ink within reach`;
}

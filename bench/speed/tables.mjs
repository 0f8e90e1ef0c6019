// Medians, their spread, and the table of a page.

export function median(list) {
  const sorted = [...list].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2;
}

/** `least to most`. */
export function spread(list) {
  return `${format(Math.min(...list))} to ${format(Math.max(...list))}`;
}

export function format(number) {
  return number >= 100 ? number.toFixed(0) : number >= 10 ? number.toFixed(1) : number.toFixed(2);
}

/** A table in Markdown; rows are `{ name, own, peer, peerName, target, wasm, copy, sum }`. */
export function tableOf(rows) {
  const head =
    '| operation | ms, median (range) | peer | its ms (range) | times the peer | wanted | times OpenCV.js | copies |';
  const lines = rows.map(({ name, own, peer, peerName, target, wasm, copy }) => {
    const ms = median(own);
    const ratio = peer.length === 0 ? '' : format(ms / median(peer));
    return `| ${[
      name,
      `${format(ms)} (${spread(own)})`,
      peerName,
      peer.length === 0 ? '' : `${format(median(peer))} (${spread(peer)})`,
      ratio,
      target ?? '',
      wasm.length === 0 ? '' : format(ms / median(wasm)),
      format(ms / median(copy)),
    ].join(' | ')} |`;
  });
  return [head, '|---|--:|---|--:|--:|--:|--:|--:|', ...lines].join('\n');
}

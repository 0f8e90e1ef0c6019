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

/** A table in Markdown; rows are `{ name, own, peer, peerName, target, wasm, js, copy }`. */
export function tableOf(rows) {
  const head =
    '| operation | ms, median (range) | peer | its ms (range) | times the peer | wanted | times OpenCV.js | times image-js | copies |';
  const lines = rows.map(({ name, own, peer, peerName, target, wasm, js, copy }) => {
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
      js.length === 0 ? '' : format(ms / median(js)),
      format(ms / median(copy)),
    ].join(' | ')} |`;
  });
  return [head, '|---|--:|---|--:|--:|--:|--:|--:|--:|', ...lines].join('\n');
}

/** First calls beside warm ones; rows are `{ name, first, warm }`. */
export function coldTableOf(rows) {
  const lines = rows.map(({ name, first, warm }) => {
    const ms = median(warm);
    return `| ${name} | ${format(first)} | ${format(ms)} (${spread(warm)}) | ${format(first / ms)} |`;
  });
  const head = '| operation | first call, ms | warm, ms, median (range) | times |';
  return [head, '|---|--:|--:|--:|', ...lines].join('\n');
}

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

/**
 * A table in Markdown; rows are `{ name, own, peer, peerName, target, wasm, js, copy }`. Peers in JavaScript that
 * did nothing have no column.
 */
export function tableOf(rows) {
  const others = [
    { title: 'times OpenCV.js', of: 'wasm' },
    { title: 'times image-js', of: 'js' },
  ].filter(({ of }) => rows.some((row) => row[of].length > 0));
  const titles = ['operation', 'ms, median (range)', 'peer', 'its ms (range)', 'times the peer'];
  const head = [...titles, 'wanted', ...others.map(({ title }) => title), 'copies'];
  const times = (ms, list) => (list.length === 0 ? '' : format(ms / median(list)));
  const lines = rows.map((row) => {
    const { name, own, peer, peerName, target, copy } = row;
    const ms = median(own);
    return [
      name,
      `${format(ms)} (${spread(own)})`,
      peerName,
      peer.length === 0 ? '' : `${format(median(peer))} (${spread(peer)})`,
      times(ms, peer),
      target ?? '',
      ...others.map(({ of }) => times(ms, row[of])),
      times(ms, copy),
    ];
  });
  const rule = head.map((title) => (title === 'operation' || title === 'peer' ? '---' : '--:'));
  return [head, rule, ...lines].map((cells) => `| ${cells.join(' | ')} |`).join('\n');
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

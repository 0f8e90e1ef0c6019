// A worker that keeps one page open. It runs in a browser (`new Worker(url, { type: 'module' })`, with
// `underink` resolved by your bundler or an import map) and in Node (`worker_threads`) as it stands.
//
// Messages in, each with an `id` that its answer carries:
//   { id, call: 'open', input, options? }     input: { data, width, height, channels? }, { ink, coverage? } or a saved page
//   { id, call: 'update', plan, stop? }       stop: a SharedArrayBuffer; the update ends once its first byte is not 0
//   { id, call: 'regionAt', point }
//   { id, call: 'regionMask', region }
//   { id, call: 'compose', bounds }
//   { id, call: 'save' }
// Answers: { id, result } or { id, error: { name, message } }; during `open` and `update` also
// { id, progress: { stage, done } }. Arrays of a result come by transfer, without a copy, where they
// are the answer's own.
import { PAGE_CALLS } from './page-calls.mjs';
import { serveCalls } from './serve-calls.mjs';

await serveCalls(PAGE_CALLS);

import variant from '@jitl/quickjs-wasmfile-release-sync';
import { newQuickJSWASMModuleFromVariant } from 'quickjs-emscripten-core';
import type { JobResult } from './job.ts';

/** UTF-8 for an engine without an Encoding API, by the language's own functions; invalid bytes throw. */
const ENCODING = `
globalThis.TextEncoder = class {
  encode(text) {
    return Uint8Array.from(unescape(encodeURIComponent(text)), (byte) => byte.charCodeAt(0));
  }
};
globalThis.TextDecoder = class {
  decode(bytes) {
    return decodeURIComponent(escape(Array.from(bytes, (b) => String.fromCharCode(b)).join('')));
  }
};`;

/** What the job gives in QuickJS, an interpreter that shares nothing with V8. */
export async function runInQuickJs(script: string, text: string): Promise<JobResult> {
  const engine = await newQuickJSWASMModuleFromVariant(variant);
  const context = engine.newContext();
  try {
    context.newString(text).consume((input) => context.setProp(context.global, 'input', input));
    const code = `${ENCODING}\n${script}\nJSON.stringify(underinkJob(input))`;
    const printed = context.unwrapResult(context.evalCode(code, 'job.js'));
    return printed.consume((result) => JSON.parse(context.getString(result)));
  } finally {
    context.dispose();
  }
}

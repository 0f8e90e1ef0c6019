// A peer of native libraries: a Python script that answers a JSON request a line with a line of JSON.
import { spawn } from 'node:child_process';
import { createInterface } from 'node:readline';

/**
 * Starts a script, which first tells its version of OpenCV; gives a function that asks it for a job and
 * has the `version` and a `stop`.
 */
export async function startNative(script, args, rounds) {
  const child = spawn('/usr/bin/python3', [script, ...args], {
    stdio: ['pipe', 'pipe', 'inherit'],
  });
  const lines = createInterface({ input: child.stdout })[Symbol.asyncIterator]();
  const answer = async () => {
    const { value, done } = await lines.next();
    if (done) throw new Error('the peer needs Debian’s python3-opencv');
    return JSON.parse(value);
  };
  const { version } = await answer();
  console.log(`native OpenCV ${version}, node ${process.version}, ${rounds} rounds`);
  const ask = async (job) => {
    child.stdin.write(`${JSON.stringify(job)}\n`);
    return await answer();
  };
  return Object.assign(ask, { version, stop: () => child.stdin.end() });
}

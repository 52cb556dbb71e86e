import { ownFolder, written } from './rillkeeper.ts';

/**
 * For NODE_OPTIONS: ends the process as kill -9 does, before or after the so-maniest call that changes the disk, of those that
 * `update` makes in its own thread. Without a number it only says how many there were.
 */
export const KILL_AT_STEP = written(
  ownFolder(),
  'kill-at-step.cjs',
  `if (process.argv[2] === 'update') {
    const { syncBuiltinESMExports } = require('node:module');
    const [step, when] = (process.env.KILL_AT ?? '').split(' ');
    let calls = 0;
    const counted = (call) => function (...args) {
      calls += 1;
      const isIt = calls === Number(step);
      if (isIt && when === 'before') process.kill(process.pid, 'SIGKILL');
      const result = call.apply(this, args);
      if (!isIt) return result;
      const end = () => process.kill(process.pid, 'SIGKILL');
      if (typeof result?.then === 'function') return result.then((value) => { end(); return value; });
      end();
      return result;
    };
    const promises = require('node:fs/promises');
    const plain = require('node:fs');
    for (const name of ['symlink', 'rename', 'rm', 'open', 'mkdir', 'writeFile']) promises[name] = counted(promises[name]);
    for (const name of ['renameSync', 'rmSync', 'openSync', 'writeFileSync']) plain[name] = counted(plain[name]);
    syncBuiltinESMExports();
    process.once('exit', () => process.stderr.write('steps: ' + calls + '\\n'));
  }`,
);

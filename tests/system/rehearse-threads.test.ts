import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as passed } from 'node:timers/promises';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { acceptedFarm } from '../../firmware-host/cli/farm-argument.ts';
import { rehearsalJson } from '../../firmware-host/cli/rehearsal-json.ts';
import { rehearseFarm } from '../../firmware-host/cli/rehearse.ts';
import { ownFolder, RIBEIRA, rillkeeper, started } from './rillkeeper.ts';
import { NO_TERMINAL } from '../support/no-terminal.ts';

/** Node's own word on stderr for each thread that a process starts, where NODE_DEBUG asks for it. */
const THREAD_STARTED = 'created Worker with ID';
const DRAWS = 8;

/** The rehearsal of the sources, which know no built thread: every run in this one, in order. */
const inOneThread = async (draws: number): Promise<string> => {
  const accepted = await acceptedFarm(RIBEIRA);
  const options = { draws: String(draws) };
  const rehearsal = await rehearseFarm(accepted, { kind: 'hot-day' }, options, Date.now(), NO_TERMINAL);
  return `${JSON.stringify(rehearsalJson(rehearsal), null, 2)}\n`;
};

const asked = (draws: number): readonly string[] => [
  ...['rehearse', RIBEIRA, '--hot-day', '--json', '--draws', String(draws)],
];

afterEach(() => {
  vi.unstubAllEnvs();
});

describe('a rehearsal in threads', () => {
  it('of 8 draws gives the bytes of one thread', async () => {
    vi.stubEnv('NODE_DEBUG', 'worker');
    const built = await rillkeeper(...asked(DRAWS));
    expect(built.stderr).toContain(THREAD_STARTED);
    expect(built.stdout).toBe(await inOneThread(DRAWS));
  });

  it('of one run starts no thread', async () => {
    vi.stubEnv('NODE_DEBUG', 'worker');
    const built = await rillkeeper(...asked(0));
    expect(built.stderr).not.toContain(THREAD_STARTED);
    expect(built.stdout).toBe(await inOneThread(0));
  });

  it.each(['SIGINT', 'SIGTERM'] as const)(
    'of 60 days ends by %s within 2 s, with nothing written (a shell says 130 or 143)',
    async (signal) => {
      vi.stubEnv('NODE_DEBUG', 'worker');
      const folder = ownFolder();
      const report = join(folder, 'report.html');
      const running = started('rehearse', RIBEIRA, '--days', '60', '--json', '--report', report);
      await running.talked(THREAD_STARTED);
      await passed(1000);
      const begun = performance.now();
      running.child.kill(signal);
      const ended = await running.ended;
      expect((performance.now() - begun) / 1000).toBeLessThan(2);
      // Ended by the signal itself, not by a code: so a loop of a shell ends too.
      expect(ended).toMatchObject({ signal, code: null, stdout: '' });
      expect(readdirSync(folder)).toEqual([]);
    },
  );
});

import { expect, it, onTestFinished } from 'vitest';
import { briskFarm } from './brisk-farm.ts';
import { deskBoard, onPty } from './pty-board.ts';
import { linesOf, rillkeeper, startedLong } from './rillkeeper.ts';
import { steppedClock } from './stepped-clock.ts';
import { textingModem } from './texting-modem.ts';

/** Fault 22 on the real process: no clock, and a host that was killed before. */
const SECONDS = 1000;
const LISTED = '+447700900123';

interface Row {
  readonly kind: string;
  readonly wall: string | null;
}

it('a host that wakes in 1970, twice, is asked by text and floods: no entry of its book and no word of its status has a time of day', async () => {
  const modem = await textingModem();
  const desk = deskBoard();
  // The tank float, a contact that opens when the tank is low, is closed.
  desk.digital.set(4, 0);
  const board = await onPty(desk.peer);
  onTestFinished(async () => {
    await Promise.all([modem.close(), board.unplug()]);
  });
  const herald = `herald:\n  people: [{ name: Ana, phone: '${LISTED}' }]\n  modem: { port: ${modem.port} }\n`;
  const { file } = briskFarm('Undated', herald);
  const rows = async (): Promise<readonly Row[]> =>
    linesOf((await rillkeeper('book', file, '--json')).stdout).map((line) => JSON.parse(line) as Row);
  const host = (): ReturnType<typeof startedLong> => {
    const { env } = steppedClock('@1970-01-01 00:05:00');
    Object.assign(process.env, env);
    const running = startedLong('run', file, '--board', board.path);
    for (const name of Object.keys(env)) Reflect.deleteProperty(process.env, name);
    return running;
  };
  const first = host();
  await first.said('the board answers');
  first.child.kill('SIGKILL');
  await first.ended;

  const again = host();
  await again.said('the board answers');
  modem.comes({ from: LISTED, body: '?' });
  const kinds = async (): Promise<readonly string[]> => (await rows()).map(({ kind }) => kind);
  for (const kind of ['verdict', 'text-came', 'delivery', 'gap-recorded', 'settings'])
    await expect.poll(kinds, { timeout: 60 * SECONDS }).toContain(kind);
  const status = await rillkeeper('status', file);
  again.child.kill('SIGTERM');
  expect((await again.ended).code).toBe(0);
  const dated = (await rows()).flatMap(({ kind, wall }) =>
    wall === null || wall === 'unknown' ? [] : [[kind, wall]],
  );
  expect(dated).toEqual([]);
  expect(status.stdout).not.toMatch(/1970|\b\d\d:\d\d\b/);
}, 150_000);

import { describe, expect, it } from 'vitest';
import { byteRun, type LineTampering } from '../../firmware-host/campaign/byte-run.ts';
import { boardMessages } from '../../sim/board/firmata/board-messages.ts';
import { COMMAND } from '../../sim/board/firmata/bytes.ts';
import { drawnRun } from '../../sim/campaign/seed.ts';
import { judged } from '../../sim/oracle/judge.ts';

const HOUR = 3_600_000;
/** From midnight on, with the first flood and the rest after it. */
const HOURS = 2;
/** Its farm has a return switch, a current sensor and contacts. */
const SEED = 5;
/** For a machine with other work. */
const SECONDS_MOST = 240;

/** The invariants that a shed in which nothing is broken breaks with a bug on its line. */
const brokenBy = async (bug: LineTampering): Promise<readonly string[]> => {
  const asked = drawnRun({ seed: SEED, days: 1, faultFree: true });
  const { record } = await byteRun({ ...asked, endMillis: asked.startMillis + HOURS * HOUR }, bug);
  return [...new Set(judged(record).map(({ invariant }) => invariant))].sort();
};

const eachMessage =
  (change: (message: Uint8Array) => Uint8Array) =>
  (bytes: Uint8Array): Uint8Array =>
    Uint8Array.from(boardMessages(bytes).flatMap((message) => [...change(message)]));

describe('a bug on the line', { timeout: SECONDS_MOST * 1000 }, () => {
  it('that is not there breaks nothing in 2 h', async () => {
    expect(await brokenBy({})).toEqual([]);
  });

  it('that turns the level of the relay (pin 7) is caught: the pump runs unasked, and alarms have no cause', async () => {
    const written = (bytes: Uint8Array): Uint8Array =>
      bytes.length === 3 && bytes[0] === COMMAND.digitalPort
        ? Uint8Array.from([bytes[0], bytes[1] ?? 0, (bytes[2] ?? 0) ^ 1])
        : bytes;
    expect(await brokenBy({ written })).toEqual(expect.arrayContaining(['I1', 'I5']));
  });

  it('that turns the levels of port 0 in the reports is caught: alarms without a cause', async () => {
    const heard = eachMessage((message) =>
      message[0] === COMMAND.digitalPort
        ? Uint8Array.from([message[0], (message[1] ?? 0) ^ 0x7f, message[2] ?? 0])
        : message,
    );
    expect(await brokenBy({ heard })).toContain('I1');
  });

  it('that swaps the reports of air (A0) and pump current (A3) is caught: alarms without a cause', async () => {
    const swapped = new Map<number, number>([
      [COMMAND.analog, COMMAND.analog | 3],
      [COMMAND.analog | 3, COMMAND.analog],
    ]);
    const heard = eachMessage(([first = 0, ...rest]) =>
      Uint8Array.from([swapped.get(first) ?? first, ...rest]),
    );
    expect(await brokenBy({ heard })).toContain('I1');
  });
});

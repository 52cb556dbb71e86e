import { afterSeconds, secondsBetween } from '../../src/time/instant.ts';
import type { Signals } from '../../src/ports/board.ts';
import type { Dialogue } from '../devices/keeper/dialogue.ts';
import { realClock } from '../real-clock.ts';
import type { Console } from './console.ts';
import type { Enter } from './enter.ts';
import { claimed, ordered, statusOf } from './keeper-dialogue.ts';
import type { Finding } from './keeper-findings.ts';

/** Docs/board-protocol.md, "Lease and epoch". */
const LEASE_SECONDS = 10;
/** A second of the board's count, and one of ours. */
const LATE_SECONDS = 2;
const SIGNAL_SECONDS = 2;
const QUIET: Signals = { buzzer: 'silent', lamp: 'dark' };

const beat = async ({ ask }: Dialogue, epoch: number, signals: Signals): Promise<void> => {
  await ask({ kind: 'heartbeat', epoch, leaseSeconds: LEASE_SECONDS, time: 'unknown', signals });
};

interface Signal {
  readonly name: 'buzzer' | 'lamp';
  readonly on: Signals;
  readonly question: string;
}
export const SIGNALS: readonly Signal[] = [
  { name: 'buzzer', on: { ...QUIET, buzzer: 'sounding' }, question: 'Did it sound?' },
  { name: 'lamp', on: { ...QUIET, lamp: 'lit' }, question: 'Was it lit?' },
];

/** Sounds or lights a part for two seconds once a person is ready, and takes the word of that person. */
export const triedSignal = async (
  dialogue: Dialogue,
  { name, on, question }: Signal,
  enter: Enter,
  stop: AbortSignal,
  console: Console,
): Promise<Finding> => {
  const notTried: Finding = { name, verdict: 'not-tried', says: `The ${name} was not tried.` };
  console.talk(`Press Enter to turn on the ${name} for ${SIGNAL_SECONDS} s.`);
  if ((await enter.line()) === null) return notTried;
  const clock = realClock(stop);
  const epoch = await claimed(dialogue);
  try {
    await beat(dialogue, epoch, on);
    await clock.until(afterSeconds(clock.now().monotonic, SIGNAL_SECONDS));
    await beat(dialogue, epoch, QUIET);
  } finally {
    await ordered(dialogue, { kind: 'let-go', epoch });
  }
  console.talk(`${question} y and Enter if so, n and Enter if not.`);
  const answer = await enter.line();
  if (answer === null) return notTried;
  return /^y(es)?$/i.test(answer.trim())
    ? { name, verdict: 'well', says: `The ${name} works.` }
    : { name, verdict: 'failed', says: `The ${name} did not work: look at its pin and its wires.` };
};

/** Whether the keeper takes the pump once this computer falls silent. No pump command is given. */
export const triedTakeOver = async (
  dialogue: Dialogue,
  stop: AbortSignal,
  console: Console,
): Promise<Finding> => {
  const name = 'take-over';
  const clock = realClock(stop);
  const epoch = await claimed(dialogue);
  await beat(dialogue, epoch, QUIET);
  const silentSince = clock.now().monotonic;
  console.talk(
    `This computer has the pump and now falls silent; the keeper must take it within ${LEASE_SECONDS} s.`,
  );
  for (;;) {
    await clock.until(afterSeconds(clock.now().monotonic, 1));
    const { owner } = await statusOf(dialogue);
    const seconds = secondsBetween(silentSince, clock.now().monotonic);
    if (owner === 'keeper')
      return {
        name,
        verdict: 'well',
        says: `The keeper took the pump after ${Math.round(seconds)} s of silence.`,
      };
    if (stop.aborted || seconds > LEASE_SECONDS + LATE_SECONDS) {
      await ordered(dialogue, { kind: 'let-go', epoch });
      return stop.aborted
        ? { name, verdict: 'not-tried', says: 'The take-over was not tried to its end.' }
        : {
            name,
            verdict: 'failed',
            says: `The keeper had not taken the pump after ${Math.round(seconds)} s of silence: this board must not be relied on.`,
          };
    }
  }
};

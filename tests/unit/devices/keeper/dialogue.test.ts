import { setImmediate as turn } from 'node:timers/promises';
import { describe, expect, it } from 'vitest';
import {
  DialogueFailure,
  openDialogue,
  type Dialogue,
} from '../../../../firmware-host/devices/keeper/dialogue.ts';
import type { LineEvents, OpenLine } from '../../../../firmware-host/devices/line.ts';
import { virtualTime } from '../../../../firmware-host/virtual-time.ts';
import { monotonicMillis } from '../../../../src/time/instant.ts';
import { framesIn } from './board-side.ts';
import { createStub, HELLO, STATUS, type Stub } from './keeper-stub.ts';

interface Desk {
  readonly stub: Stub;
  /** Bytes that the line puts before an answer. */
  noise: readonly number[];
  /** So many of the next frames of the host are lost on the way. */
  losing: number;
  lose: (why: string) => void;
  closed: boolean;
  readonly dialogue: Promise<Dialogue>;
  /** Lets seconds pass, and what waits for them go on. */
  readonly pass: (seconds: number) => Promise<void>;
}

const desk = (losing = 0): Desk => {
  const time = virtualTime(1_000_000);
  const stub = createStub(time.timers.now);
  let events: LineEvents | null = null;
  const open: OpenLine = (_, given) => {
    events = given;
    return {
      write: (bytes) => {
        if (made.losing > 0) {
          made.losing -= 1;
          return;
        }
        for (const asked of framesIn(bytes)) {
          const answer = stub.answer(asked);
          if (answer === null) continue;
          time.timers.setTimeout(() => {
            given.heard(Uint8Array.from([...made.noise, ...answer]));
          }, 5);
        }
      },
      close: () => {
        made.closed = true;
        return Promise.resolve();
      },
    };
  };
  const made: Omit<Desk, 'dialogue'> = {
    stub,
    noise: [],
    losing,
    closed: false,
    lose: (why) => events?.lost(why),
    pass: async (seconds) => {
      for (let step = 0; step < seconds * 10; step += 1) {
        time.advance(monotonicMillis(time.timers.now() + 100));
        await turn();
      }
    },
  };
  return Object.assign(made, { dialogue: openDialogue(open, 'port', time.timers) });
};
const failure = (promise: Promise<unknown>): Promise<string> =>
  promise.then(
    () => 'no failure',
    (error: unknown) => (error instanceof DialogueFailure ? error.message : `not expected: ${String(error)}`),
  );

describe('a dialogue with a keeper', () => {
  it('says hello until a board that is still in its bootloader answers: after five unheard', async () => {
    const at = desk(5);
    await at.pass(2);
    const { hello } = await at.dialogue;
    expect(hello.protocol.major).toBe(1);
    expect(at.stub.heard.map(({ type }) => type)).toEqual([HELLO]);
  });

  it('gives up after 8 s without an answer, and frees the port', async () => {
    const at = desk(1000);
    const failed = failure(at.dialogue);
    await at.pass(7.5);
    expect(at.closed).toBe(false);
    await at.pass(1);
    expect(await failed).toBe('port: the board does not answer');
    expect(at.closed).toBe(true);
  });

  it('finds the answer behind other Firmata messages, stray bytes and a spoilt frame', async () => {
    const at = desk();
    at.noise = [0xe0, 1, 2, 0x41, 0xf0, 0x0a, 1, 0, 0xf7, 0xf0, 0x79, 2, 7, 0xf7, 0xf0, 0x0a, 5];
    await at.pass(1);
    expect((await at.dialogue).hello.firmware.major).toBe(1);
  });

  it('says a question again until it is answered, and takes one answer', async () => {
    const at = desk();
    await at.pass(1);
    const { ask } = await at.dialogue;
    at.losing = 2;
    const asked = ask({ kind: 'status' });
    await at.pass(1);
    expect((await asked).kind).toBe('status');
    expect(at.stub.heard.filter(({ type }) => type === STATUS)).toHaveLength(1);
  });

  it('fails when the board falls silent, or the line goes, and at once after that', async () => {
    const at = desk();
    await at.pass(1);
    const { ask } = await at.dialogue;
    at.losing = 1000;
    const silent = failure(ask({ kind: 'status' }));
    await at.pass(3);
    expect(await silent).toBe('port: the board does not answer');
    const cut = failure(ask({ kind: 'status' }));
    at.lose('unplugged');
    expect(await cut).toBe('port: unplugged');
    expect(await failure(ask({ kind: 'status' }))).toBe('port: unplugged');
  });
});

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { UNO_PIN_TABLE } from '../../../sim/board/firmata/uno-pins.ts';
import { BOOT_MILLIS, hexOf, messagesIn, onDesk, type Desk } from './desk.ts';

const RUNS = 100;
const BYTES_PER_STEP = 100;
const STEPS = 10;

const meaningful = [
  0xf0, 0xf7, 0xf4, 0xf5, 0x90, 0x91, 0xe9, 0xeb, 0xc0, 0xd0, 0xd1, 0xf9, 0x03, 0x09, 0x0b, 0x6d,
];
const someBytes = fc
  .array(fc.oneof(fc.nat(255), fc.constantFrom(...meaningful)), {
    minLength: BYTES_PER_STEP,
    maxLength: BYTES_PER_STEP,
    size: 'max',
  })
  .map((bytes) => Uint8Array.from(bytes));
const step = fc.record({
  bytes: someBytes,
  waitMillis: fc.nat(200),
  before: fc.constantFrom(...(['nothing', 'nothing', 'nothing', 'open', 'close', 'reset'] as const)),
});
const steps = fc.array(step, { minLength: STEPS, maxLength: STEPS, size: 'max' });

interface Heard {
  readonly desk: Desk;
  readonly messages: readonly string[];
}

const run = (script: readonly (typeof step extends fc.Arbitrary<infer Step> ? Step : never)[]): Heard => {
  const desk = onDesk({ bootMillis: 50 });
  const messages: string[] = [];
  desk.analog.set(0, 700).set(3, 9);
  desk.digital.set(3, 1).set(12, 0);
  let now = 0;
  desk.peer.open(now);
  for (const { bytes, waitMillis, before } of script) {
    now += waitMillis;
    if (before !== 'nothing') desk.peer[before](now);
    desk.peer.receive(bytes, now);
    messages.push(...messagesIn(desk.peer.take()));
  }
  return { desk, messages };
};

describe(`${RUNS * STEPS * BYTES_PER_STEP} arbitrary bytes to a board that is opened, closed and reset`, () => {
  it('draw only whole messages from it, which name only channels and ports that it has', () => {
    let answers = 0;
    fc.assert(
      fc.property(steps, (script) => {
        const { messages } = run(script);
        answers += messages.length;
        for (const message of messages) {
          const first = Number.parseInt(message.slice(0, 2), 16);
          if (first < 0xf0) expect(first & 0x0f).toBeLessThan((first & 0xf0) === 0xe0 ? 6 : 3);
        }
      }),
      { numRuns: RUNS },
    );
    expect(answers).toBeGreaterThan(RUNS);
  });

  it('drive only pins that can be outputs, PWM only where there is PWM', () => {
    let highs = 0;
    fc.assert(
      fc.property(steps, (script) => {
        for (const [pin, level] of run(script).desk.driven) {
          const modes = UNO_PIN_TABLE[pin]!.abilities.map(({ mode }) => mode);
          expect(modes).toContain(typeof level === 'object' ? 3 : 1);
          if (level === 1) highs += 1;
        }
      }),
      { numRuns: RUNS },
    );
    expect(highs).toBeGreaterThan(0);
  });

  it('leave it able to answer: once opened and started it says its version', () => {
    fc.assert(
      fc.property(steps, (script) => {
        const { peer } = run(script).desk;
        peer.open(1_000_000);
        peer.advance(1_000_000 + BOOT_MILLIS);
        peer.take();
        peer.receive(Uint8Array.of(0xf9), 1_000_000 + BOOT_MILLIS);
        expect(hexOf(peer.take())).toBe('F9 02 08');
      }),
      { numRuns: RUNS },
    );
  });

  it('do the same to a second board', () => {
    fc.assert(
      fc.property(steps, (script) => {
        const [one, other] = [run(script), run(script)];
        expect(one.messages).toEqual(other.messages);
        expect(one.desk.driven).toEqual(other.desk.driven);
      }),
      { numRuns: 20 },
    );
  });
});

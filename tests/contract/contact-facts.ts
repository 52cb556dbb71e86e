import { describe, expect } from 'vitest';
import { PIN_MODE } from '../../sim/board/firmata/bytes.ts';
import type { Sample } from '../../src/ports/sample.ts';
import { until, type OpenBench } from './bench.ts';
import { wiringWith } from './bench-board.ts';
import { factsOn, told } from './visit.ts';

type Told = boolean | null;

/** A contact, and how long it must be otherwise to be told so: two readings, or ten where water moves it. */
const CONTACTS = [
  {
    contact: 'the relay read-back',
    blink: 0.9,
    lasts: 3,
    pin: 3,
    normal: 1,
    so: (sample: Sample): Told => (sample.channel === 'relay-read-back' ? sample.closed : null),
  },
  {
    contact: 'the tank float',
    blink: 8,
    lasts: 12,
    pin: 4,
    normal: 0,
    so: (sample: Sample): Told => (sample.channel === 'tank-float' ? sample.low : null),
  },
  {
    contact: 'the leak sensor',
    blink: 8,
    lasts: 12,
    pin: 9,
    normal: 1,
    so: (sample: Sample): Told => (sample.channel === 'leak' ? sample.wet : null),
  },
] as const;

export const contactFacts = (name: string, openBench: OpenBench): void => {
  describe(`${name}: tells contacts and a button`, () => {
    const fact = factsOn(openBench);

    for (const { contact, blink, lasts, pin, normal, so } of CONTACTS)
      fact(`tells ${contact} when readings agree: ${blink} s are not told, ${lasts} s are`, async (visit) => {
        const { bench, board, link } = visit;
        const level = (now: 0 | 1): void => {
          board.digital.set(pin, now);
          bench.look();
        };
        level(normal);
        await until(
          bench,
          'it is told as it is',
          () => link.samples().some((sample) => so(sample) === false),
          3,
        );
        for (let time = 0; time < 3; time += 1) {
          level(normal === 1 ? 0 : 1);
          await bench.pass(blink);
          level(normal);
          await bench.pass(1.43);
        }
        expect(link.samples().filter((sample) => so(sample) === true)).toEqual([]);
        level(normal === 1 ? 0 : 1);
        await until(
          bench,
          'it is told',
          () => link.samples().some((sample) => so(sample) === true),
          lasts + 0.2,
        );
      });

    fact(
      'takes a spoilt byte that makes the read-back contact an output for no closed relay, and heals it',
      async (visit) => {
        const { bench, board, link } = visit;
        board.digital.set(3, 1);
        bench.look();
        await told(visit, 'relay-read-back', ({ closed }) => !closed);
        board.peer.receive(Uint8Array.of(0xf4, 3, PIN_MODE.output), bench.timers.now());
        link.samples();
        await bench.pass(4);
        const closed = link
          .samples()
          .filter((sample) => sample.channel === 'relay-read-back' && sample.closed);
        expect(closed).toEqual([]);
        board.digital.set(3, 0);
        bench.look();
        await told(visit, 'relay-read-back', (sample) => sample.closed, 4);
      },
    );

    fact(
      'takes a spoilt byte that makes the button an output for a short press at most, and heals it',
      async (visit) => {
        const { bench, board, link } = visit;
        board.digital.set(8, 1);
        bench.look();
        await bench.pass(1.5);
        board.peer.receive(Uint8Array.of(0xf4, 8, PIN_MODE.output), bench.timers.now());
        await bench.pass(5);
        // A flood more does no harm; half an hour without one may.
        expect(link.presses().filter((press) => press !== 'short')).toEqual([]);
        board.digital.set(8, 0);
        bench.look();
        await until(bench, 'a press that is one', () => link.presses().some((press) => press !== 'short'), 5);
        board.digital.set(8, 1);
        bench.look();
      },
    );

    fact(
      'tells a return switch and a current contact by their levels',
      async (visit) => {
        const { bench, board } = visit;
        for (const so of [true, false]) {
          board.digital.set(2, so ? 0 : 1).set(11, so ? 1 : 0);
          bench.look();
          await told(visit, 'return-switch', ({ flowing }) => flowing === so);
          await told(visit, 'pump-current', ({ drawing }) => drawing === so);
        }
      },
      { wiring: wiringWith({ returnFlow: { pin: 2 }, pumpCurrent: { pin: 11, reads: 'high' } }) },
    );
  });
};

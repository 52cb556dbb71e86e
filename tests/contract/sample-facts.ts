import { describe, expect } from 'vitest';
import type { Channel } from '../../src/ports/sample.ts';
import { secondsBetween } from '../../src/time/instant.ts';
import { until, type OpenBench } from './bench.ts';
import { RELAY_PIN, timesDriven } from './bench-board.ts';
import { factsOn, told } from './visit.ts';

const ZERO_CELSIUS = 273.15;

/**
 * Counts of a 10-bit converter for a thermistor of 10 kΩ at 25 °C and B 3950 (R = R25 exp(B (1/T − 1/T25))),
 * with a resistor of 10 kΩ between it and ground.
 */
const countsToReference = (celsius: number): number => {
  const ohms = 10_000 * Math.exp(3950 * (1 / (celsius + ZERO_CELSIUS) - 1 / (25 + ZERO_CELSIUS)));
  return Math.round((1024 * 10_000) / (ohms + 10_000));
};

/** 6 pulses a second. */
const HALF_PULSES_PER_SECOND = 12;

const near = (value: number, expected: number, within: number): boolean =>
  Math.abs(value - expected) <= within;

const about = (value: number, within: number): unknown => ({
  asymmetricMatch: (found: unknown) => typeof found === 'number' && near(found, value, within),
  toString: () => `${value} within ${within}`,
});

/** Two states of all the pins, each with what it means by the wiring. */
const STATES = [
  {
    state: 'warm, drawing and wet',
    analog: [512, countsToReference(12), 437, 150, 614, 682],
    digital: { 3: 0, 4: 1, 9: 0, 10: 1 },
    means: {
      // Half of the reference: the thermistor has the ohms of its resistor, 10 kΩ, and that is 25 °C.
      'air-temperature': { celsius: about(25, 0.3) },
      'water-temperature': { celsius: about(12, 0.3) },
      probe: { counts: 437 },
      'pump-current': { drawing: true },
      humidity: { percent: about(60, 0.1) },
      // Two thirds of 1023 counts are two thirds of 600 L.
      'tank-level': { litres: about(400, 0.01) },
      'relay-read-back': { closed: true },
      'tank-float': { low: true },
      leak: { wet: true },
      overflow: { wet: true },
    },
  },
  {
    state: 'with an open thermistor, idle and dry',
    analog: [1023, countsToReference(38), 12, 40, 307, 341],
    digital: { 3: 1, 4: 0, 9: 1, 10: 0 },
    means: {
      'air-temperature': { celsius: -273.15 },
      'water-temperature': { celsius: about(38, 0.3) },
      probe: { counts: 12 },
      'pump-current': { drawing: false },
      humidity: { percent: about(30, 0.1) },
      'tank-level': { litres: about(200, 0.01) },
      'relay-read-back': { closed: false },
      'tank-float': { low: false },
      leak: { wet: false },
      overflow: { wet: false },
    },
  },
] as const;

const CHANNELS: readonly Channel[] = [
  'air-temperature',
  'water-temperature',
  'humidity',
  'return-flow',
  'pump-current',
  'relay-read-back',
  'tank-level',
  'tank-float',
  'leak',
  'overflow',
  'probe',
];

/** Parts of messages, and messages of no kind that a board sends; none is a whole one by chance. */
const GARBAGE: readonly (readonly number[])[] = [
  [0x00, 0x7f, 0x13, 0x11],
  [0xe0],
  [0x90, 0x01],
  [0xf9, 0x02],
  [0xff, 0xf4, 0x07, 0x01],
  [0xf5, 0x07, 0x01],
  [0xf0, 0x79, 0x02],
  [0xf0, 0x6c, 0x00, 0x01, 0x7f, 0xf7],
  [0xf0, 0x6a, 0x7f, 0xf7],
  [0xf0, 0xf7],
  [0xef, 0x01, 0x01],
  [0x9f, 0x7f, 0x7f],
  [0xf7, 0xf7],
];

export const sampleFacts = (name: string, openBench: OpenBench): void => {
  describe(`${name}: tells what it sees`, () => {
    const fact = factsOn(openBench);

    fact(
      'tells every wired channel once a second, stamped with the moment at which it was seen',
      async (visit) => {
        const { bench } = visit;
        await bench.pass(2.5);
        const before = bench.timers.now();
        visit.link.samples();
        await bench.pass(3);
        const samples = visit.link.samples();
        expect(new Set(samples.map(({ channel }) => channel))).toEqual(new Set(CHANNELS));
        for (const channel of CHANNELS) {
          const found = samples.filter((sample) => sample.channel === channel);
          expect([channel, found.length]).toEqual([channel, expect.toBeOneOf([2, 3, 4])]);
          for (const { at } of found) {
            expect(at).toBeLessThanOrEqual(bench.timers.now());
            // Seen since the reading before, which was told before the samples were taken.
            expect(secondsBetween(before, at)).toBeGreaterThan(-1.5);
          }
        }
        expect(visit.link.samples().every(({ at }) => at >= before)).toBe(true);
      },
    );

    for (const { state, analog, digital, means } of STATES)
      fact(
        `tells a shed that is ${state}`,
        async ({ bench, link }) => {
          // The first reading of a contact is told at once; counts are medians of a second.
          await bench.pass(2.5);
          link.samples();
          await bench.pass(1.2);
          const samples = link.samples();
          for (const [channel, meaning] of Object.entries(means))
            expect(samples.findLast((sample) => sample.channel === channel)).toMatchObject(meaning);
        },
        {},
        (board) => {
          analog.forEach((counts, channel) => board.analog.set(channel, counts));
          for (const [pin, level] of Object.entries(digital)) board.digital.set(Number(pin), level);
        },
      );

    fact(
      'tells 36 L/min of a meter that gives 10 pulses a litre and 6 pulses a second, within 5 %',
      async (visit) => {
        const { bench } = visit;
        // By the clock, so that a late turn of the test does not make them fewer.
        const meter = bench.timers.setInterval(() => {
          const half = Math.floor((HALF_PULSES_PER_SECOND * bench.timers.now()) / 1000) % 2;
          visit.board.digital.set(2, half === 0 ? 0 : 1);
          bench.look();
        }, 10);
        await bench.pass(2);
        visit.link.samples();
        const flows: number[] = [];
        await until(
          bench,
          'three readings within 5 %',
          () => {
            for (const sample of visit.link.samples())
              if (sample.channel === 'return-flow') flows.push(sample.litresPerMinute);
            return flows.length >= 3 && flows.slice(-3).every((flow) => near(flow, 36, 0.05 * 36));
          },
          5,
        );
        bench.timers.clearInterval(meter);
      },
    );

    for (const rail of [0, 1023])
      fact(`tells no litres at ${rail} counts, where a cut or shorted cable reads too`, async (visit) => {
        visit.board.analog.set(5, 500);
        await told(visit, 'tank-level', ({ litres }) => litres > 0);
        visit.board.analog.set(5, rail);
        await told(visit, 'tank-level', ({ litres }) => Number.isNaN(litres));
      });

    fact('goes on as before through garbage between messages', async (visit) => {
      const { bench, board, link } = visit;
      board.analog.set(2, 500);
      await told(visit, 'probe', ({ counts }) => counts === 500);
      const pulls = timesDriven(board, RELAY_PIN, 1);
      for (const bytes of GARBAGE) {
        bench.disturb(bench.ports[0], bytes);
        await bench.pass(0.15);
      }
      await bench.pass(1.5);
      link.samples();
      await bench.pass(2);
      const samples = link.samples();
      const probe = samples.filter((sample) => sample.channel === 'probe');
      expect(new Set(probe.map(({ counts }) => counts))).toEqual(new Set([500]));
      expect(new Set(samples.map(({ channel }) => channel))).toEqual(new Set(CHANNELS));
      expect([link.link().kind, timesDriven(board, RELAY_PIN, 1)]).toEqual(['up', pulls]);
      expect(link.counts()).toMatchObject({ connections: 1 });
      expect(link.counts().droppedBytes).toBeGreaterThan(0);
    });
  });
};

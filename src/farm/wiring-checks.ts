import type { FarmProblem } from './problem.ts';
import type { ReadableFarm, ReadableWiring } from './readable.ts';
import type { FarmFile } from './schema.ts';
import { valueAt } from './schema-walk.ts';

type Fitted = Readonly<{ evidence: FarmFile['evidence']; sensors: FarmFile['sensors'] }>;

/**
 * Edges of a pulse that a stock board can tell over 57 600 baud: 3 bytes each, two a pulse, a third of the line.
 * Faster pulses would be lost, and flow be told too low.
 */
const PULSES_PER_SECOND_MAX = 200;
/** A quarter of the usual return must give a pulse in 15 s, or a flood starts long before it can be seen. */
const PULSES_PER_MINUTE_MIN = 16;

const problem = (
  path: readonly (string | number)[],
  found: string,
  allowed: string,
  why: string,
  advice?: string,
): FarmProblem => ({ path, found, allowed, problem: why, ...(advice === undefined ? {} : { advice }) });

/** A pin, the key of the part that sits on it, and where the file says so. */
interface UsedPin {
  readonly key: string;
  readonly pin: string;
  readonly path: readonly (string | number)[];
}

const pinsOf = (board: ReadableWiring): readonly UsedPin[] =>
  Object.entries(board).flatMap(([key, part]): readonly UsedPin[] => {
    const path = ['board', key];
    if (typeof part === 'number') return [{ key, pin: String(part), path }];
    if (typeof part !== 'object') return [];
    const drives = 'drivenBy' in part ? part.drivenBy : [];
    return [
      { key, pin: String(part.pin), path: [...path, 'pin'] },
      ...drives.map((pin, place) => ({ key, pin: String(pin), path: [...path, 'drivenBy', place] })),
    ];
  });

const twiceUsed = (board: ReadableWiring): readonly FarmProblem[] => {
  const first = new Map<string, string>();
  return pinsOf(board).flatMap(({ key, pin, path }): readonly FarmProblem[] => {
    const other = first.get(pin);
    if (other === undefined) {
      first.set(pin, key);
      return [];
    }
    return [problem(path, pin, `a pin that carries nothing else`, `This pin already carries ${other}.`)];
  });
};

/**
 * A cell of K = 1 in 2 mS/cm has 500 Ω, and a shorted one none: the resistor alone then keeps the pins under the
 * 20 mA of their tests, at 5 V. ATmega328P data sheet, electrical characteristics: 40 mA a pin at most.
 */
const SERIES_OHMS_MIN = 470;

const bareProbeProblems = ({ probe }: ReadableWiring): readonly FarmProblem[] =>
  probe === undefined || !('seriesOhms' in probe) || probe.seriesOhms >= SERIES_OHMS_MIN
    ? []
    : [
        problem(
          ['board', 'probe', 'seriesOhms'],
          String(probe.seriesOhms),
          `at least ${SERIES_OHMS_MIN}`,
          'With less in series a shorted cell would draw more from the pins of the board than they bear.',
        ),
      ];

/** Parts that the rest of the file says are there, or not, and on which the wiring must agree. */
const agreements = ({
  evidence,
  sensors,
}: Fitted): readonly {
  readonly said: string;
  readonly fitted: boolean;
  readonly key: keyof ReadableWiring;
}[] => [
  { said: 'evidence.returnFlow', fitted: evidence.returnFlow !== 'none', key: 'returnFlow' },
  { said: 'evidence.pumpCurrent', fitted: evidence.pumpCurrent, key: 'pumpCurrent' },
  { said: 'evidence.relayReadBack', fitted: evidence.relayReadBack, key: 'relayReadBack' },
  { said: 'evidence.tankLevel', fitted: evidence.tankLevel, key: 'tankLevel' },
  { said: 'evidence.tankFloat', fitted: evidence.tankFloat, key: 'tankFloat' },
  { said: 'evidence.leakSensor', fitted: evidence.leakSensor, key: 'leakSensor' },
  { said: 'evidence.overflowFloat', fitted: evidence.overflowFloat, key: 'overflowFloat' },
  { said: 'evidence.mainsPresent', fitted: evidence.mainsPresent, key: 'mainsPresent' },
  { said: 'sensors.airTemperature', fitted: sensors.airTemperature, key: 'airThermistor' },
  { said: 'sensors.humidity', fitted: sensors.humidity, key: 'humidity' },
];

const disagreeing = (raw: unknown, fitted: Fitted): readonly FarmProblem[] =>
  agreements(fitted).flatMap(({ said, fitted: there, key }): readonly FarmProblem[] => {
    // What is there and cannot be read has a problem of its own.
    const wired = valueAt(raw, ['board', key]) !== undefined;
    if (there === wired) return [];
    return there
      ? [
          problem(
            said.split('.'),
            'fitted',
            `a pin for it as board.${key}, or not fitted`,
            'The board has no pin for it, so it could never be read.',
          ),
        ]
      : [
          problem(
            ['board', key],
            'a pin',
            `no such key, or ${said} fitted`,
            `By ${said} it is not there, so it would be read and never believed.`,
          ),
        ];
  });

const returnProblems = ({ returnFlow }: ReadableWiring, { evidence }: Fitted): readonly FarmProblem[] => {
  if (returnFlow === undefined || evidence.returnFlow === 'none') return [];
  const isMeter = 'pulsesPerLitre' in returnFlow;
  if (isMeter === (evidence.returnFlow === 'meter')) return [];
  return [
    problem(
      ['board', 'returnFlow'],
      isMeter ? 'pulsesPerLitre' : 'a contact',
      isMeter ? 'a contact, or evidence.returnFlow: meter' : 'pulsesPerLitre, or evidence.returnFlow: switch',
      `By evidence.returnFlow it is a ${evidence.returnFlow}.`,
    ),
  ];
};

const pulseProblems = ({ returnFlow }: ReadableWiring, litresPerMinute: number): readonly FarmProblem[] => {
  if (returnFlow === undefined || !('pulsesPerLitre' in returnFlow) || litresPerMinute === 0) return [];
  const path = ['board', 'returnFlow', 'pulsesPerLitre'];
  const { pulsesPerLitre } = returnFlow;
  const perMinute = pulsesPerLitre * litresPerMinute;
  const most = (PULSES_PER_SECOND_MAX * 60) / litresPerMinute;
  const least = PULSES_PER_MINUTE_MIN / litresPerMinute;
  const allowed = `${least.toPrecision(2)} to ${Math.floor(most)} pulses a litre at ${litresPerMinute} L/min`;
  if (perMinute > PULSES_PER_SECOND_MAX * 60) {
    const why = 'The board cannot tell so many pulses: some would be lost.';
    return [problem(path, String(pulsesPerLitre), allowed, why, 'Take a larger meter, or a flow switch.')];
  }
  if (perMinute >= PULSES_PER_MINUTE_MIN) return [];
  const why = 'Pulses come so seldom that returning water would be seen too late.';
  return [problem(path, String(pulsesPerLitre), allowed, why, 'Take a finer meter, or a flow switch.')];
};

const sameEnds = (
  board: ReadableWiring,
  key: 'tankLevel' | 'humidity',
  atZero: number | undefined,
  atFullScale: number | undefined,
): readonly FarmProblem[] =>
  board[key] === undefined || atZero !== atFullScale
    ? []
    : [problem(['board', key], String(atZero), 'two different ends', 'Every count would mean the same.')];

/** Whether the wiring agrees with itself and with what the rest of the file says is fitted. */
export const wiringProblems = (file: ReadableFarm, raw: unknown): readonly FarmProblem[] => {
  const { board, evidence, sensors } = file;
  if (board === undefined) return [];
  const litresPerMinute = file.benches.reduce((sum, bench) => sum + (bench.litresPerMinute ?? 0), 0);
  const fitted = evidence === undefined || sensors === undefined ? null : { evidence, sensors };
  return [
    ...twiceUsed(board),
    ...(fitted === null ? [] : disagreeing(raw, fitted)),
    ...(fitted === null ? [] : returnProblems(board, fitted)),
    ...pulseProblems(board, litresPerMinute),
    ...bareProbeProblems(board),
    ...sameEnds(board, 'tankLevel', board.tankLevel?.litresAtZero, board.tankLevel?.litresAtFullScale),
    ...sameEnds(board, 'humidity', board.humidity?.percentAtZero, board.humidity?.percentAtFullScale),
  ];
};

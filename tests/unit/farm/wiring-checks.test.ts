import { describe, expect, it } from 'vitest';
import { farmFromText } from '../../../firmware-host/farm-file/read.ts';
import type { FarmProblem } from '../../../src/farm/parse.ts';
import { boardWith, exampleFile, farmWith, placesOf, problemsWith, type Change } from './example.ts';
import { evidence, named, refuses, TWICE, type Refused } from './refused-wiring.ts';

describe('a wiring that agrees with the file', () => {
  it('is accepted, with contacts to ground, a 10 k 3950 thermistor and humidity of 0 to 100 %', () => {
    expect(farmWith(boardWith()).board).toMatchObject({
      relay: { pin: 7, energised: 'high' },
      tankFloat: { pin: 4, reads: 'low' },
      airThermistor: { ohmsAt25: 10_000, betaKelvin: 3950, fixedOhms: 10_000, wired: 'to-ground' },
      humidity: { percentAtZero: 0, percentAtFullScale: 100 },
    });
  });

  it('may be left out of the file', () => {
    expect(problemsWith()).toEqual([]);
    expect(farmWith().board).toBeUndefined();
  });

  it('may have water thermometer, probe, buzzer, lamp and button, which are nobody’s evidence', () => {
    const more = { waterThermistor: { pin: 'A1' }, buzzer: 5, lamp: 6, button: 8 };
    const probe = { pin: 'A2', fullScaleMicrosiemensPerCm: 5000 };
    expect(problemsWith(boardWith({ ...more, probe }))).toEqual([]);
  });
});

const twice: readonly Refused[] = [
  [
    'a buzzer on the relay',
    [boardWith({ buzzer: 7 })],
    'board.buzzer',
    '7',
    TWICE,
    /already carries relay\./,
  ],
  [
    'a float on the meter',
    [boardWith({ tankFloat: { pin: 2 } })],
    'board.tankFloat.pin',
    '2',
    TWICE,
    /already carries returnFlow\./,
  ],
  [
    'two thermistors on A0',
    [boardWith({ waterThermistor: { pin: 'A0' } })],
    'board.waterThermistor.pin',
    'A0',
    TWICE,
    /already carries airThermistor\./,
  ],
];

describe('a pin that is used twice', () => {
  it.each(named(twice))('%s', (_, row) => {
    refuses(row);
  });

  it('by three parts is told for the second and the third', () => {
    expect(placesOf(problemsWith(boardWith({ buzzer: 7, lamp: 7 })))).toEqual(['board.buzzer', 'board.lamp']);
  });

  it('by the number 2 and by A2 are two pins', () => {
    expect(problemsWith(boardWith({ probe: { pin: 'A2', fullScaleMicrosiemensPerCm: 5000 } }))).toEqual([]);
  });
});

describe('pins 0 and 1, which are the serial line, and 13, which blinks while the board starts', () => {
  it.each([0, 1, 13])('%d is refused for every part', (pin) => {
    const words = pin === 13 ? /too large/ : /too small/;
    const allowed = /a whole number, 2 to 12/;
    const at = (change: object, place: string): void => {
      refuses(['', [boardWith(change)], place, String(pin), allowed, words]);
    };
    at({ relay: { pin } }, 'board.relay.pin');
    at({ returnFlow: { pin, pulsesPerLitre: 1.5 } }, 'board.returnFlow.pin');
    at({ tankFloat: { pin } }, 'board.tankFloat.pin');
    at({ buzzer: pin }, 'board.buzzer');
    at({ lamp: pin }, 'board.lamp');
    at({ button: pin }, 'board.button');
  });

  it('2 and 12 are taken, 2.5 and A8 are not', () => {
    expect(problemsWith(boardWith({ buzzer: 12, relay: { pin: 3 } }))).toEqual([]);
    refuses(['', [boardWith({ buzzer: 2.5 })], 'board.buzzer', '2.5', /a whole number/, /must be whole/]);
    refuses([
      '',
      [boardWith({ humidity: { pin: 'A8' } })],
      'board.humidity.pin',
      '"A8"',
      /A0, A1/,
      /not one/,
    ]);
  });
});

const PARTS: readonly (readonly [said: string, key: string, part: object])[] = [
  ['evidence.pumpCurrent', 'pumpCurrent', { pin: 3 }],
  ['evidence.pumpCurrent', 'pumpCurrent', { pin: 'A3', drawsAboveCounts: 100 }],
  ['evidence.relayReadBack', 'relayReadBack', { pin: 3 }],
  ['evidence.tankLevel', 'tankLevel', { pin: 'A5', litresAtZero: 0, litresAtFullScale: 600 }],
  ['evidence.leakSensor', 'leakSensor', { pin: 9 }],
  ['evidence.overflowFloat', 'overflowFloat', { pin: 10 }],
];

describe('evidence that is fitted and has no pin', () => {
  it.each(PARTS)('%s without board.%s', (said, key, part) => {
    const fitted: Change = [said.split('.'), true];
    const allowed = new RegExp(`a pin for it as board\\.${key}, or not fitted`);
    refuses(['', [boardWith(), fitted], said, 'fitted', allowed, /could never be read/]);
    expect(problemsWith(boardWith({ [key]: part }), fitted)).toEqual([]);
  });

  it.each([
    ['evidence.returnFlow', 'returnFlow'],
    ['evidence.tankFloat', 'tankFloat'],
    ['sensors.airTemperature', 'airThermistor'],
    ['sensors.humidity', 'humidity'],
  ])('%s of the example without board.%s', (said, key) => {
    const allowed = new RegExp(`board\\.${key}`);
    refuses(['', [boardWith({ [key]: undefined })], said, 'fitted', allowed, /could never be read/]);
  });
});

describe('a pin for what is not fitted', () => {
  it.each(PARTS)('%s is not, board.%s is', (said, key, part) => {
    const allowed = new RegExp(`no such key, or ${said.replace('.', '\\.')} fitted`);
    refuses(['', [boardWith({ [key]: part })], `board.${key}`, 'a pin', allowed, /read and never believed/]);
  });

  it('a return flow of none', () => {
    refuses([
      '',
      [boardWith(), evidence('returnFlow', 'none')],
      'board.returnFlow',
      'a pin',
      /no such key, or evidence\.returnFlow fitted/,
      /By evidence\.returnFlow it is not there/,
    ]);
  });
});

const SWITCH = { returnFlow: { pin: 2 } };
const returns: readonly Refused[] = [
  [
    'a meter on the board, a switch by the evidence',
    [boardWith(), evidence('returnFlow', 'switch')],
    'board.returnFlow',
    'pulsesPerLitre',
    /^a contact, or evidence\.returnFlow: meter$/,
    /By evidence\.returnFlow it is a switch\./,
  ],
  [
    'a switch on the board, a meter by the evidence',
    [boardWith(SWITCH)],
    'board.returnFlow',
    'a contact',
    /^pulsesPerLitre, or evidence\.returnFlow: switch$/,
    /By evidence\.returnFlow it is a meter\./,
  ],
];

describe('the return sensor', () => {
  it.each(named(returns))('%s', (_, row) => {
    refuses(row);
  });

  it('as a switch in both places is accepted', () => {
    expect(problemsWith(boardWith(SWITCH), evidence('returnFlow', 'switch'))).toEqual([]);
  });

  const meter = (pulsesPerLitre: number): readonly FarmProblem[] =>
    problemsWith(boardWith({ returnFlow: { pin: 2, pulsesPerLitre } }));

  // 200 pulses a second at 40 L/min are 300 a litre; 16 a minute are 0.4.
  it('of 40 L/min takes a meter of 0.4 to 300 pulses a litre', () => {
    expect(meter(0.4)).toEqual([]);
    expect(meter(300)).toEqual([]);
    expect(meter(301)).toMatchObject([
      {
        path: ['board', 'returnFlow', 'pulsesPerLitre'],
        found: '301',
        allowed: '0.40 to 300 pulses a litre at 40 L/min',
        problem: 'The board cannot tell so many pulses: some would be lost.',
        advice: 'Take a larger meter, or a flow switch.',
      },
    ]);
    expect(meter(0.39)).toMatchObject([
      {
        found: '0.39',
        problem: 'Pulses come so seldom that returning water would be seen too late.',
        advice: 'Take a finer meter, or a flow switch.',
      },
    ]);
  });

  it('of 10 L/min takes finer meters: 1200 pulses a litre, not 1201', () => {
    const file = exampleFile() as { benches: unknown[] };
    const one: Change = [['benches'], file.benches.slice(0, 1)];
    const with1 = (pulsesPerLitre: number): number =>
      problemsWith(one, boardWith({ returnFlow: { pin: 2, pulsesPerLitre } })).length;
    expect([with1(1200), with1(1201), with1(1.6), with1(1.59)]).toEqual([0, 1, 0, 1]);
  });
});

const ENDS = /two different ends/;
const ends: readonly Refused[] = [
  [
    'a humidity of 50 to 50 %',
    [boardWith({ humidity: { pin: 'A4', percentAtZero: 50, percentAtFullScale: 50 } })],
    'board.humidity',
    '50',
    ENDS,
    /Every count would mean the same/,
  ],
  [
    'a tank of 600 to 600 L',
    [
      boardWith({ tankLevel: { pin: 'A5', litresAtZero: 600, litresAtFullScale: 600 } }),
      evidence('tankLevel', true),
    ],
    'board.tankLevel',
    '600',
    ENDS,
    /Every count would mean the same/,
  ],
];

describe('two ends that are one', () => {
  it.each(named(ends))('%s', (_, row) => {
    refuses(row);
  });
});

describe('a wiring that is wrong in several ways', () => {
  it('is told of all of them, and hides no disagreement elsewhere', () => {
    const problems = problemsWith(
      boardWith({ buzzer: 7, leakSensor: { pin: 9 } }),
      evidence('pumpCurrent', true),
      [['floors', 'wilt'], 0.6],
    );
    expect(placesOf(problems)).toEqual([
      'floors.wilt',
      'board.buzzer',
      'evidence.pumpCurrent',
      'board.leakSensor',
    ]);
  });

  it('is not told of pins that are missing because one of them cannot be read', () => {
    expect(placesOf(problemsWith(boardWith({ relay: { pin: 13 } })))).toEqual(['board.relay.pin']);
  });

  it('is told with the line in the file', () => {
    const text = JSON.stringify(
      Object.assign(exampleFile() as object, { board: Object.assign({}, boardWith()[1], { buzzer: 7 }) }),
      null,
      1,
    );
    const lines = text.split('\n');
    const read = farmFromText(text, 'hillside.yaml');
    const [problem] = read.ok ? [] : read.problems;
    expect(problem?.path).toEqual(['board', 'buzzer']);
    expect(lines[problem!.line - 1]).toMatch(/"buzzer": 7/);
    expect(lines[problem!.line - 1]!.slice(problem!.column - 1)).toMatch(/^7/);
  });
});

import { describe, expect, it } from 'vitest';
import type { Level } from '../../../sim/board/firmata/pin-bank.ts';
import { answerTo, started, type Desk } from './desk.ts';

/** The level of a pin after these bytes. */
const levelAfter = (hex: string, pin: number, desk: Desk = started()): Level => {
  answerTo(desk, hex);
  return desk.levelOf(pin);
};

describe('pins after the start, as stock firmware leaves them', () => {
  it('are driven low on 2 to 13 and left alone on 0, 1 and 14 to 19', () => {
    const desk = started();
    const levels = Array.from({ length: 20 }, (_, pin) => desk.levelOf(pin));
    const [serial, low, analog] = [levels.slice(0, 2), levels.slice(2, 14), levels.slice(14)];
    expect(new Set(serial)).toEqual(new Set(['floating']));
    expect(new Set(low)).toEqual(new Set([0]));
    expect(new Set(analog)).toEqual(new Set(['floating']));
  });

  it.each([
    ['pin 8 is an output at 0', 'F0 6D 08 F7', 'F0 6E 08 01 00 F7'],
    ['pin 14 is an analog input', 'F0 6D 0E F7', 'F0 6E 0E 02 00 F7'],
    ['pin 1 never left input', 'F0 6D 01 F7', 'F0 6E 01 00 00 F7'],
    ['there is no pin 20', 'F0 6D 14 F7', 'F0 6E 14 F7'],
  ])('%s', (_, query, answer) => {
    expect(answerTo(started(), query)).toEqual([answer]);
  });
});

describe('writes', () => {
  it.each<[string, string, number, Level]>([
    ['F5 sets one output', 'F4 08 01 F5 08 01', 8, 1],
    ['F5 reaches an output by default', 'F5 08 01', 8, 1],
    ['F5 leaves an input alone', 'F4 08 00 F5 08 01', 8, 'floating'],
    ['F5 leaves a pull-up alone', 'F4 08 0B F5 08 01', 8, 'floating'],
    ['F5 leaves an analog input alone', 'F5 0E 01', 14, 'floating'],
    ['F5 leaves the serial line alone', 'F4 01 01 F5 01 01', 1, 'floating'],
    ['a port write sets a pin', '91 01 00', 8, 1],
    ['a port write sets the eighth pin of the port by its second byte', '90 00 01', 7, 1],
    ['a port write clears what it does not name', 'F5 08 01 91 02 00', 8, 0],
    ['a port write leaves inputs alone', 'F4 08 00 91 7F 01', 8, 'floating'],
    ['a port write leaves analog inputs alone', '91 7F 01', 14, 'floating'],
    ['a port write leaves the serial line alone', '90 7F 01', 1, 'floating'],
    ['a port write leaves PWM alone', 'F4 09 03 E9 40 00 91 00 00', 9, { pwm: 64 }],
    ['PWM 64 of 255', 'F4 09 03 E9 40 00', 9, { pwm: 64 }],
    ['PWM 1 is not high', 'F4 09 03 E9 01 00', 9, { pwm: 1 }],
    ['PWM 0 is low', 'F4 09 03 E9 40 00 E9 00 00', 9, 0],
    ['PWM 255 is high', 'F4 09 03 E9 7F 01', 9, 1],
    ['PWM 320 loses its ninth bit', 'F4 09 03 E9 40 02', 9, { pwm: 64 }],
    ['extended analog reaches pin 11', 'F4 0B 03 F0 6F 0B 40 00 F7', 11, { pwm: 64 }],
    ['an analog write to a digital output does nothing', 'F4 09 01 E9 40 00', 9, 0],
    ['PWM is refused on pin 8', 'F4 08 03 E8 40 00', 8, 0],
    ['from PWM back to output is low', 'F4 09 03 E9 40 00 F4 09 01', 9, 0],
    ['an output made input floats', 'F5 08 01 F4 08 00', 8, 'floating'],
    ['an output made pull-up floats', 'F5 08 01 F4 08 0B', 8, 'floating'],
    ['A0 works as digital output', 'F4 0E 01 F5 0E 01', 14, 1],
  ])('%s', (_, hex, pin, level) => {
    expect(levelAfter(hex, pin)).toEqual(level);
  });

  it('set all 8 pins of port 1 at once, those in output mode only', () => {
    const desk = started();
    answerTo(desk, 'F4 0A 00 91 7F 01');
    const levels = Array.from({ length: 8 }, (_, bit) => desk.levelOf(8 + bit));
    expect(levels).toEqual([1, 1, 'floating', 1, 1, 1, 'floating', 'floating']);
  });

  it('tell the world nothing when nothing changes', () => {
    const desk = started();
    answerTo(desk, 'F5 08 01');
    const before = desk.driven.length;
    answerTo(desk, 'F5 08 01 91 01 00 91 01 00');
    expect(desk.driven).toHaveLength(before);
  });

  it.each([
    ['a pin 20 that is not there', 'F4 14 01 F5 14 01 E3 40 00 F0 6F 63 40 F7 92 70 00 9F 7F 01'],
    ['the serial pins', 'F4 00 01 F5 00 01 F4 01 0B F4 01 03 90 03 00 F0 6F 01 40 F7'],
  ])('drive nothing on %s', (_, hex) => {
    const desk = started();
    const before = desk.driven.length;
    answerTo(desk, hex);
    expect(desk.driven.slice(before)).toEqual([]);
  });

  it('to an unknown mode 99 get a message in words and change nothing', () => {
    const desk = started();
    const [words] = answerTo(desk, 'F5 08 01 F4 08 63');
    expect(words).toMatch(/^F0 71 /);
    expect(desk.levelOf(8)).toBe(1);
    expect(answerTo(desk, 'F0 6D 08 F7')).toEqual(['F0 6E 08 01 01 F7']);
  });

  it('to a mode that this pin lacks are passed over in silence: PWM on pin 8', () => {
    const desk = started();
    expect(answerTo(desk, 'F4 08 03')).toEqual([]);
    expect(answerTo(desk, 'F0 6D 08 F7')).toEqual(['F0 6E 08 01 00 F7']);
  });

  it.each([
    ['a high output', 'F5 08 01', '08', '01 01'],
    ['a pull-up', 'F4 08 0B', '08', '0B 01'],
    ['an input', 'F4 08 00', '08', '00 00'],
    ['PWM 200', 'F4 09 03 E9 48 01', '09', '03 48 01'],
    ['a serial pin that a port write named', '90 03 00', '01', '00 00'],
  ])('are told by the pin state: %s', (_, hex, pin, state) => {
    const desk = started();
    answerTo(desk, hex);
    expect(answerTo(desk, `F0 6D ${pin} F7`)).toEqual([`F0 6E ${pin} ${state} F7`]);
  });
});

describe('inputs', () => {
  /** Port 0 reports pin 2 in its bit 2. */
  const reads = (mode: string, wire: 0 | 1 | 'floating'): readonly string[] => {
    const desk = started();
    if (wire !== 'floating') desk.digital.set(2, wire);
    return answerTo(desk, `F4 02 ${mode} D0 01`);
  };
  it.each<[string, string, 0 | 1 | 'floating', string]>([
    ['pull-up on a floating wire reads 1', '0B', 'floating', '90 04 00'],
    ['pull-up on a wire held low reads 0', '0B', 0, '90 00 00'],
    ['pull-up on a wire held high reads 1', '0B', 1, '90 04 00'],
    ['plain input on a floating wire reads 0', '00', 'floating', '90 00 00'],
    ['plain input on a wire held high reads 1', '00', 1, '90 04 00'],
    ['an output is not read back', '01', 1, '90 00 00'],
  ])('%s', (_, mode, wire, report) => {
    expect(reads(mode, wire)).toEqual([report]);
  });

  it('have their pull-up turned on by a port write of 1 and not off by one of 0', () => {
    const desk = started();
    answerTo(desk, 'F4 02 00 90 04 00');
    expect(answerTo(desk, 'D0 01')).toEqual(['90 04 00']);
    answerTo(desk, '90 00 00');
    expect(answerTo(desk, 'D0 01')).toEqual(['90 04 00']);
    expect(answerTo(desk, 'F0 6D 02 F7')).toEqual(['F0 6E 02 00 00 F7']);
  });
});

describe('a system reset, FF', () => {
  it('keeps an output high with the habit of today, though its state says 0', () => {
    const desk = started();
    expect(levelAfter('F5 08 01 FF', 8, desk)).toBe(1);
    expect(answerTo(desk, 'F0 6D 08 F7')).toEqual(['F0 6E 08 01 00 F7']);
  });

  it('drives it low with the habit of before', () => {
    expect(levelAfter('F5 08 01 FF', 8, started({ outputHabit: 'starts-low' }))).toBe(0);
  });

  it.each(['keeps-latch', 'starts-low'] as const)('drives PWM low with habit %s', (outputHabit) => {
    expect(levelAfter('F4 09 03 E9 40 00 FF', 9, started({ outputHabit }))).toBe(0);
  });

  it('makes a pull-up an output: high with the habit of today, low with the one of before', () => {
    expect(levelAfter('F4 08 0B FF', 8)).toBe(1);
    expect(levelAfter('F4 08 0B FF', 8, started({ outputHabit: 'starts-low' }))).toBe(0);
  });

  it('makes A0 an analog input again and answers nothing', () => {
    const desk = started();
    expect(answerTo(desk, 'F4 0E 01 F5 0E 01 FF')).toEqual([]);
    expect(desk.levelOf(14)).toBe('floating');
    expect(answerTo(desk, 'F0 6D 0E F7')).toEqual(['F0 6E 0E 02 00 F7']);
  });
});

import { describe, expect, it } from 'vitest';
import { probeReading, type ProbeCalibration, type ProbeInput } from '../../../src/sense/probe.ts';
import { wallMillis } from '../../../src/time/instant.ts';

/** 5120 µS/cm over 1024 counts: 5 µS/cm a count. */
const MODULE = { fullScaleMicrosiemensPerCm: 5120 };
const CALIBRATION: ProbeCalibration = {
  cellFactor: 1,
  zeroMicrosiemensPerCm: 0,
  at: wallMillis(0),
  points: [{ standardMicrosiemensPerCmAt25: 1413, counts: 282.6, celsius: 25 }],
  module: MODULE,
  earlier: [],
};
const water = (celsius: number): ProbeInput['waterCelsius'] => ({
  quality: 'good',
  value: celsius,
  ageSeconds: 0,
});
/** 400 counts are 2000 µS/cm. */
const INPUT: ProbeInput = {
  module: MODULE,
  counts: [400],
  ageSeconds: 30,
  waterCelsius: water(25),
  waterAtProbe: 'seen',
  calibration: CALIBRATION,
};
const linear = (percentPerKelvin: number | undefined): ProbeInput['compensation'] =>
  percentPerKelvin === undefined ? undefined : { kind: 'linear', percentPerKelvin };

const reading = (change: Partial<ProbeInput>): ReturnType<typeof probeReading> =>
  probeReading({ ...INPUT, ...change });
const why = (change: Partial<ProbeInput>): string => {
  const found = reading(change);
  return found.quality === 'good' ? 'good' : `${found.quality}: ${found.why}`;
};
const strength = (change: Partial<ProbeInput>): number => {
  const found = reading(change);
  return found.quality !== 'absent' && found.value.compensated ? found.value.millisiemensPerCmAt25 : NaN;
};

describe('a good reading', () => {
  it('400 of 1024 counts of a 5120 µS/cm module at 25 °C are 2 mS/cm', () => {
    expect(reading({})).toEqual({
      quality: 'good',
      value: { compensated: true, millisiemensPerCmAt25: 2, microsiemensPerCm: 2000, celsius: 25 },
      ageSeconds: 30,
    });
  });

  // 1/(1 + 0.02·(−10)) = 1.25 and 1/1.1.
  it.each([
    [15, undefined, 2.5],
    [30, undefined, 2 / 1.1],
    [15, 1.91, 2 / 0.809],
    [30, 0, 2],
  ])(
    'linear rule of instrument manuals: 2000 µS/cm at %d °C with %s %%/K is %d mS/cm',
    (celsius, percentPerKelvin, expected) => {
      expect(strength({ waterCelsius: water(celsius), compensation: linear(percentPerKelvin) })).toBeCloseTo(
        expected,
        12,
      );
    },
  );

  it('cell factor 1.2 and zero 50 µS/cm: 2000 in the signal are 2340 µS/cm', () => {
    const calibration = { ...CALIBRATION, cellFactor: 1.2, zeroMicrosiemensPerCm: 50 };
    expect(strength({ calibration })).toBeCloseTo(2.34, 12);
  });

  it('the median of 5 counts is used, one glitch of 1000 changes nothing, and of 4 the middle two are halved', () => {
    expect(strength({ counts: [399, 1000, 400, 401, 400] })).toBe(2);
    expect(strength({ counts: [396, 404, 402, 398] })).toBe(2);
  });

  it('counts that no 10-bit converter gives are left out, and 12 bit has 4096', () => {
    expect(strength({ counts: [NaN, 400, -1, 1024] })).toBe(2);
    expect(strength({ module: { ...MODULE, bits: 12 }, counts: [1600] })).toBe(2);
  });
});

describe('a dry probe', () => {
  it.each([
    ['seen', 'absent: the probe reads near zero while water runs: it is dry, or its cable is off'],
    ['not-seen', 'absent: the probe is dry while no water runs past it'],
    ['unknown', 'absent: the probe reads near zero: it is dry, or its cable is off'],
  ] as const)('near zero with water %s is %s', (waterAtProbe, expected) => {
    expect(why({ counts: [3], waterAtProbe })).toBe(expected);
  });

  it('is anything below 50 µS/cm, 10 counts here', () => {
    expect(reading({ counts: [9.9] }).quality).toBe('absent');
    expect(reading({ counts: [10] }).quality).toBe('good');
  });

  it('is anything below 4 counts where the module is coarse: 80 µS/cm at 20 µS/cm a count', () => {
    const module = { fullScaleMicrosiemensPerCm: 20_480 };
    const calibration = { ...CALIBRATION, module };
    expect(reading({ module, calibration, counts: [3.9] }).quality).toBe('absent');
    expect(reading({ module, calibration, counts: [4] }).quality).toBe('good');
  });

  it('is seen in the bare signal too: 0 counts with a zero of −100 µS/cm are not 100 µS/cm of salts', () => {
    const calibration = { ...CALIBRATION, zeroMicrosiemensPerCm: -100 };
    expect(reading({ calibration, counts: [0] }).quality).toBe('absent');
  });

  it('is seen in the calibrated value too: 20 counts with a zero of 100 µS/cm are nothing', () => {
    const calibration = { ...CALIBRATION, zeroMicrosiemensPerCm: 100 };
    expect(reading({ calibration, counts: [20] }).quality).toBe('absent');
  });

  it('without water temperature and after an hour is absent, not stale or suspect', () => {
    const waterCelsius = { quality: 'absent', why: 'no thermometer' } as const;
    expect(reading({ counts: [0], ageSeconds: 3600, waterCelsius }).quality).toBe('absent');
  });

  it.each([[[]], [[NaN, -1, 1024]]])('counts %j give no reading', (counts) => {
    expect(why({ counts })).toBe('absent: the probe has given no count that can be read');
  });

  it('a calibration that is no number gives no reading', () => {
    expect(reading({ calibration: { ...CALIBRATION, cellFactor: NaN } }).quality).toBe('absent');
  });
});

describe('a reading without compensation', () => {
  const raw = { compensated: false, microsiemensPerCm: 2000 };

  it.each<[string, ProbeInput['waterCelsius'], string]>([
    [
      'absent',
      { quality: 'absent', why: 'no water thermometer' },
      'no good water temperature: no water thermometer',
    ],
    ['stale', { quality: 'stale', value: 25, ageSeconds: 900, why: 'old' }, 'no good water temperature: old'],
    [
      'suspect',
      { quality: 'suspect', value: 25, ageSeconds: 1, why: 'jumped' },
      'no good water temperature: jumped',
    ],
  ])('shows raw 2000 µS/cm, suspect, when the water temperature is %s', (_, waterCelsius, words) => {
    const expected = { quality: 'suspect', value: raw, ageSeconds: 30, why: `not compensated, ${words}` };
    expect(reading({ waterCelsius })).toEqual(expected);
  });

  it.each([
    [-0.1, 2, 'below 0 °C'],
    [50.1, 2, 'above 50 °C'],
    [NaN, 2, 'no number'],
    [20, 9, 'outside 0 to 3 %'],
  ])('shows raw 2000 µS/cm, suspect, at %d °C with %d %%/K', (celsius, percentPerKelvin, words) => {
    const found = reading({ waterCelsius: water(celsius), compensation: linear(percentPerKelvin) });
    expect(found).toMatchObject({ quality: 'suspect', value: raw });
    expect(why({ waterCelsius: water(celsius), compensation: linear(percentPerKelvin) })).toContain(words);
  });
});

describe('a reading in doubt keeps its value and says why', () => {
  it.each<[string, Partial<ProbeInput>, string]>([
    ['never calibrated', { calibration: null }, 'suspect: the probe was never calibrated'],
    [
      'calibrated with a module of twice the range',
      { calibration: { ...CALIBRATION, cellFactor: 1.5, module: { fullScaleMicrosiemensPerCm: 10_240 } } },
      'suspect: the calibration belongs to a module of another range',
    ],
    ['601 s old', { ageSeconds: 601 }, 'stale: last reading is 601 s old'],
    ['600 s old', { ageSeconds: 600 }, 'good'],
    ['past still air', { waterAtProbe: 'not-seen' }, 'suspect: no water runs past the probe'],
    ['with nobody who could see the water', { waterAtProbe: 'unknown' }, 'good'],
    // Median deviation; 2 % of 400 is 8.
    [
      'noisy by 8.1 counts in 400',
      { counts: [400, 391.9, 408.1, 391.9, 408.1] },
      'suspect: the signal is noisy: clean the probe and look at its cable',
    ],
    ['noisy by 8 counts in 400', { counts: [400, 392, 408, 392, 408] }, 'good'],
  ])('%s', (_, change, expected) => {
    expect(why(change)).toBe(expected);
    expect(strength(change)).toBe(2);
  });

  it('noise of 2 counts is the converter’s own, even in 20 counts', () => {
    expect(reading({ counts: [20, 18, 22, 18, 22] }).quality).toBe('good');
    expect(reading({ counts: [20, 17, 23, 17, 23] }).quality).toBe('suspect');
  });

  // ATmega328P: ±2 counts.
  it('ATmega328P ±2 counts: 1021 counts are the top and suspect, 5.105 mS/cm or more; 1020 are good', () => {
    expect(why({ counts: [1021] })).toBe(
      'suspect: the signal is at its top: the solution is at least this strong',
    );
    expect(strength({ counts: [1021] })).toBeCloseTo(5.105, 12);
    expect(why({ counts: [1020] })).toBe('good');
  });

  it('0 and 1023 counts are counts: one is dry, the other at the top', () => {
    expect(why({ counts: [0] })).toContain('near zero');
    expect(why({ counts: [1023] })).toContain('at its top');
  });

  it('600 s old and doubtful is still suspect, not stale', () => {
    expect(reading({ calibration: null, ageSeconds: 600 }).quality).toBe('suspect');
  });

  it('says every reason when there are several', () => {
    expect(why({ calibration: null, ageSeconds: 700, waterAtProbe: 'not-seen' })).toBe(
      'stale: last reading is 700 s old; the probe was never calibrated; no water runs past the probe',
    );
  });
});

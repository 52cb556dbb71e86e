import { CAMPAIGN, own, test, type FaultGroup } from '../fault-row.ts';

export const SENSORS: FaultGroup = {
  group: 'Sensors',
  rows: [
    {
      number: 38,
      fault: 'return sensor stuck',
      detection: 'rests and other signs speak against it',
      reaction: 'not believed; floods go on, other signs prove them',
      invariants: ['I2', 'I11'],
      layers: ['S'],
      injectors: [
        'flow-stuck-low',
        'flow-stuck-high',
        'flow-silent',
        'sensor-off',
        'sensor-stuck',
        'sensor-garbage',
        'sensor-wrong',
        'sensor-slow',
        'sensor-delayed',
        'sensor-intermittent',
      ],
      tests: [
        CAMPAIGN,
        test(
          'simulation/sensor-faults.test.ts',
          'keeps every bench above its stress floor, whichever sensor fails, at whichever of four hours',
        ),
        test(
          'simulation/sensor-faults.test.ts',
          'does not hide a pump that is unplugged an hour later: told by its current with half of the time left',
        ),
      ],
    },
    {
      number: 39,
      fault: 'float stuck up or down',
      detection: 'contradicts the water; never moves in 30 days',
      reaction: 'suspect; a hand test is asked for, every 30 days also where nothing contradicts it',
      invariants: ['I11'],
      layers: ['S'],
      injectors: [
        'float-stuck-low',
        'sensor-stuck',
        'sensor-wrong',
        own('unit/controller/float-unmoved.test.ts', 'lookedOn'),
      ],
      tests: [
        CAMPAIGN,
        test(
          'simulation/sensor-faults.test.ts',
          'keeps every bench above its stress floor, whichever sensor fails, at whichever of four hours',
        ),
        test(
          'keeper/core/tank_overruled.cpp',
          'with neither fitted a hand test is asked for, and sips go on: 24 h',
        ),
        test(
          'unit/sense/float-watch.test.ts',
          'for 29 d 23 h without a move is none to test, for 30 d it is, and 12 h later it is still 30 d',
        ),
        test(
          'unit/controller/float-unmoved.test.ts',
          'stays over a restart, and ends when the float is held the other way, for a hand has moved it',
        ),
        test(
          'simulation/float-unmoved.test.ts',
          'has its float asked for once, within 10 min of the 30th day',
        ),
      ],
    },
    {
      number: 40,
      fault: 'thermistor open or shorted',
      detection: 'counts at a rail, outside −20 to 60 °C',
      reaction: 'absent; wet end of the plan; warns',
      invariants: ['I11'],
      layers: ['P', 'S'],
      injectors: ['air-open', 'air-silent'],
      tests: [
        CAMPAIGN,
        test('unit/sense/counts.test.ts', 'is no temperature at 0 to 2 and 1021 to 1023'),
        test(
          'simulation/sensor-faults.test.ts',
          'keeps every bench above its stress floor, whichever sensor fails, at whichever of four hours',
        ),
      ],
    },
    {
      number: 41,
      fault: 'thermometer in the sun or drifting',
      detection: 'jump, or hotter than the sun allows',
      reaction: 'suspect; the more careful value',
      invariants: ['I11'],
      layers: ['S'],
      injectors: ['air-in-sun', 'sensor-slow'],
      tests: [
        CAMPAIGN,
        test(
          'simulation/sensor-faults.test.ts',
          'keeps every bench above its stress floor, whichever sensor fails, at whichever of four hours',
        ),
      ],
    },
    {
      number: 42,
      fault: 'glitch of the converter',
      detection: 'middle of the last words',
      reaction: 'one wild word changes nothing',
      invariants: ['I11'],
      // No layer A: the emulated converter makes no glitch.
      layers: ['P'],
      injectors: [own('unit/sense/probe.test.ts', 'counts')],
      tests: [
        test(
          'unit/sense/probe.test.ts',
          'the median of 5 counts is used, one glitch of 1000 changes nothing, and of 4 the middle two are halved',
        ),
        test(
          'unit/sense/course.test.ts',
          'one step of more than 3 within half a minute is doubted for the next 5 min',
        ),
      ],
    },
    {
      number: 43,
      fault: 'strength probe dry',
      detection: 'near nothing',
      reaction: 'absent, no advice',
      invariants: ['I11'],
      layers: ['S', 'P'],
      injectors: [own('unit/sense/bare-probe.test.ts', 'dry')],
      tests: [
        test(
          'unit/sense/bare-probe.test.ts',
          'is absent when it is open, dry or its cable is off: 0 and 40 counts, 41 µS/cm',
        ),
        test(
          'simulation/wrong-mix.test.ts',
          'is told through the converter of a board too, and never by a probe that is dry',
        ),
        test('unit/sense/strength.test.ts', 'is absent before the probe has spoken, and when it is dry'),
      ],
    },
    {
      number: 44,
      fault: 'strength probe fouled or noisy',
      detection: 'spread of its words, drift of calibrations',
      reaction: 'suspect, cleaning is asked for',
      invariants: ['I11'],
      // No layer S: a probe that drifts in a simulated shed is dosed by, and does not show (69).
      layers: ['P'],
      injectors: [own('unit/sense/strength-watch.test.ts', 'drifting')],
      tests: [
        test('unit/sense/probe.test.ts', 'noisy by 8.1 counts in 400'),
        test(
          'unit/sense/calibrate.test.ts',
          '%d counts in 1413 after 282.6: the old calibration is off by %d %%',
        ),
        test(
          'unit/sense/strength-watch.test.ts',
          'that reads 2 % less each day in a solution of 1.6 is told as too weak on the thirteenth day',
        ),
        test('unit/sense/probe.test.ts', 'noise of 2 counts is the converter’s own, even in 20 counts'),
      ],
    },
    {
      number: 45,
      fault: 'calibrated in the wrong solution',
      detection: 'cell factor outside 0.5 to 2',
      reaction: 'refused, the old one stays',
      invariants: ['I10'],
      layers: ['P'],
      injectors: [own('unit/sense/calibrate-any.test.ts', 'any numbers at all')],
      tests: [
        test(
          'unit/sense/calibrate-any.test.ts',
          'any numbers at all: an accepted cell factor is 0.5–2 and its zero within 2 %, a refusal keeps the old one',
        ),
      ],
    },
    {
      number: 46,
      fault: 'no temperature to compensate by',
      detection: 'water thermometer absent',
      reaction: 'raw, marked so',
      invariants: ['I11'],
      layers: ['P'],
      injectors: [own('unit/sense/strength.test.ts', 'celsius')],
      tests: [
        test(
          'unit/sense/strength.test.ts',
          'is raw conductivity, suspect, while the water thermometer says nothing',
        ),
      ],
    },
  ],
};

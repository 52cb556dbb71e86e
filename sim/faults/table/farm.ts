import { CAMPAIGN, own, test, type FaultGroup } from '../fault-row.ts';

export const FARM: FaultGroup = {
  group: 'The farm itself',
  rows: [
    {
      number: 65,
      fault: 'one inlet or channel blocked',
      detection:
        'not visible on a common return: said so; two of three floods with less than 0.88 of the best return that ever was usual',
      reaction: 'medium alarm with the flow that was and the list of the benches to walk',
      invariants: ['I1', 'I2'],
      layers: ['S'],
      injectors: ['inlet-blocked', 'branch-clogging'],
      tests: [
        CAMPAIGN,
        test('simulation/scenarios.test.ts', '$name: $says'),
        test(
          'simulation/return-lower.test.ts',
          'is one medium alarm at the end of the second flood after it, 21 % under what used to come back',
        ),
        test(
          'unit/verify/return-plateau.test.ts',
          'is held against the best that ever was usual: a decline of 1 % a flood is told at the 14th',
        ),
      ],
    },
    {
      number: 66,
      fault: 'mains lost, electronics on battery',
      detection: 'mains contact, current',
      reaction: 'told within 60 s with time left; flood when they are back',
      invariants: ['I1', 'I2'],
      layers: ['S'],
      injectors: ['mains-lost'],
      tests: [
        CAMPAIGN,
        test(
          'simulation/mains.test.ts',
          'are told within 60 s, high, with the cause and no more time than there truly is',
        ),
        test(
          'simulation/mains.test.ts',
          'are back: the alarm returns within 60 s, the pump is on within 60 s, and the next flood is confirmed',
        ),
      ],
    },
    {
      number: 67,
      fault: 'battery of the host flat',
      detection:
        'charge and voltage as the system tells them, once a minute; no record of a clean stop at the next start',
      reaction:
        'told at 20 %, high at 10 %, with what goes on without the host; no power-off by the program: it floods as long as there is power, the journal survives any cut (1, 49), the keeper goes on',
      invariants: ['I4', 'I7'],
      layers: ['P', 'S', 'T'],
      injectors: ['host-killed', own('unit/upkeep/battery.test.ts', 'supply')],
      tests: [
        CAMPAIGN,
        test(
          'unit/upkeep/battery.test.ts',
          'tell charge in per cent and voltage in microvolts of the battery that is drained, the emptiest of several',
        ),
        test(
          'unit/upkeep/battery.test.ts',
          'whose gauge shows 0 % for six hours is not believed, and is again once it moves',
        ),
        test(
          'unit/alarm/host-cards.test.ts',
          'is a battery of 18 %: medium, with what goes on without the host; one that is very low is high',
        ),
        test(
          'system/ending.test.ts',
          '%s in the middle of a flood ends it within 2 s, with 0 and the pump asked off',
        ),
      ],
    },
    {
      number: 68,
      fault: 'top-up fails or does not end',
      detection:
        'float low; tank that goes on falling from rest to rest below its valve; tank full to its brim in two rests; overflow float',
      reaction: 'alarm with when it runs dry, or how full it is',
      invariants: ['I1'],
      layers: ['S'],
      injectors: [
        'top-up-stopped',
        'top-up-salty',
        own('simulation/top-up-sticks-open.test.ts', 'stuckOpen'),
      ],
      tests: [
        CAMPAIGN,
        test(
          'simulation/empty-tank.test.ts',
          'is told first, by a high alarm, with more than an hour truly left',
        ),
        test(
          'simulation/tank-top-up.test.ts',
          'is the first alarm, high, in the hours while whole floods still come, %s',
        ),
        test(
          'simulation/top-up-sticks-open.test.ts',
          'is one low alarm within 2 h where a sensor reads the level, with how full the tank is',
        ),
        test(
          'simulation/top-up-sticks-open.test.ts',
          'is one high alarm within 1 h where a float hangs at the brim, however often a flood frees it',
        ),
      ],
    },
    {
      number: 69,
      fault: 'wrong mix',
      detection:
        'good readings at 25 °C outside the band round the usual strength for 30 min; one salt missing, or a drifting probe that is dosed by, does not show in them',
      reaction:
        'told, medium: another meter first, then litres of water by the balance of salts, or stock in small steps; nothing by itself',
      invariants: ['I11'],
      layers: ['P', 'S'],
      injectors: ['top-up-salty', 'probe-drifting', own('simulation/wrong-mix.test.ts', 'wrongMix')],
      tests: [
        CAMPAIGN,
        test('simulation/scenarios.test.ts', '$name: $says'),
        test(
          'simulation/wrong-mix.test.ts',
          'is one medium alarm within an hour, with litres that bring the tank back within 5 % (%s)',
        ),
        test(
          'simulation/wrong-mix.test.ts',
          'is told through the converter of a board too, and never by a probe that is dry',
        ),
        test(
          'simulation/wrong-mix.test.ts',
          'stays told while the probe falls silent, over a restart, and is not told by one that was never good',
        ),
        test(
          'simulation/wrong-mix.test.ts',
          'is one medium alarm within an hour: another meter first, stock in small steps, and no grams',
        ),
        test(
          'simulation/wrong-mix.test.ts',
          'is told when the plants stand at 2.2 mS/cm or less, and asks to measure that water too',
        ),
        test(
          'unit/sense/strength-watch.test.ts',
          'that reads 2 % less each day in a solution of 1.6 is told as too weak on the thirteenth day',
        ),
      ],
    },
    {
      number: 70,
      fault: 'farm file wrong about a bench',
      detection: 'tank falls from rest to rest beyond what the plants of the file can drink',
      reaction:
        'asks whether the file has every bench that is planted; floods go on by the day plan, whatever the file calls empty',
      invariants: ['I1', 'I11'],
      layers: ['S'],
      injectors: [
        own('simulation/fault-free.test.ts', 'drawnJudgements'),
        own('simulation/farm-file-wrong.test.ts', 'callsEmpty'),
      ],
      tests: [
        test(
          'simulation/fault-free.test.ts',
          'raises no alarm either in ten sheds whose unmeasured parameters are drawn from their doubt',
        ),
        test(
          'simulation/farm-file-wrong.test.ts',
          'is asked about by noon, by the fall of the tank, with %i of four',
        ),
        test(
          'simulation/farm-file-wrong.test.ts',
          'is not seen with one of four: what it drinks hides in the doubt of the others',
        ),
        test(
          'simulation/farm-file-wrong.test.ts',
          'leaves none below its stress floor on a hot day, with %i of four',
        ),
      ],
    },
    {
      number: 71,
      fault: 'hold forgotten',
      detection: 'its end',
      reaction: 'buzzer, floods go on at its end, alarm at half of the time left',
      invariants: ['I13'],
      layers: ['S', 'A'],
      injectors: ['hold'],
      tests: [
        CAMPAIGN,
        test(
          'unit/controller/hold.test.ts',
          'of 30 min raises its own alarm when half of the time left has gone',
        ),
        test(
          'contract/keeper-facts.ts',
          'stops for a hold, holds on without its host, and warns 10 s before it floods again',
        ),
        test(
          'keeper/core/hold.cpp',
          'for the last 10 s of a hold the buzzer sounds, and not before, with and without a host',
        ),
      ],
    },
    {
      number: 72,
      fault: 'pump unplugged for cleaning',
      detection: 'no current or flow, tank full',
      reaction: 'missed; first asks whether it is plugged in',
      invariants: ['I2'],
      layers: ['S'],
      injectors: ['pump-unplugged'],
      tests: [
        CAMPAIGN,
        test(
          'simulation/pump-faults.test.ts',
          'is told within 60 s of the deadline of the first flood after it, with the right place to look',
        ),
      ],
    },
  ],
};

import { CAMPAIGN, own, test, type FaultGroup } from '../fault-row.ts';

export const WATER: FaultGroup = {
  group: 'Pump and water',
  rows: [
    {
      number: 11,
      fault: 'relay does not close',
      detection: 'asked on, read-back and flow say no',
      reaction: 'two retries, missed, alarm',
      invariants: ['I1', 'I2'],
      // No layer A: to the board it is a pump that gives nothing (14); the host tells it from one by its contact.
      layers: ['S'],
      injectors: ['relay-open'],
      tests: [
        CAMPAIGN,
        test(
          'simulation/pump-faults.test.ts',
          'is told within 60 s of the deadline of the first flood after it, with the right place to look',
        ),
      ],
    },
    {
      number: 12,
      fault: 'relay welded closed',
      detection: 'read-back, current or return after the word off',
      reaction: 'alarm: pull the plug',
      invariants: ['I3'],
      // No layer A: the judgement of the firmware is tried as it is compiled for this machine.
      layers: ['S', 'P'],
      injectors: ['relay-welded'],
      tests: [
        CAMPAIGN,
        test(
          'simulation/sensor-faults.test.ts',
          'is told of once, within 6 min of the stop that did not stop it: a minute of grace and a quiet look',
        ),
        test(
          'keeper/core/records.cpp',
          'a relay whose contact stays closed 6 s after the pump went off: buzzer 12 s of 60; not where it rests closed',
        ),
      ],
    },
    {
      number: 13,
      fault: 'relay chatters',
      detection: 'read-back changes often',
      reaction: 'not believed; medium alarm; the board refuses runs and rests that are too short',
      invariants: ['I3'],
      // No layer A: the judgement of the firmware is tried as it is compiled for this machine.
      layers: ['P', 'S'],
      injectors: [
        own('unit/controller/relay-chatters.test.ts', 'relayThat'),
        own('keeper/core/pump.cpp', 'bareSetup'),
      ],
      tests: [
        test(
          'keeper/core/pump.cpp',
          'a start is refused for 60 s of shortest-off, each time with the seconds that are left, then taken',
        ),
        test('unit/sense/senses.test.ts', 'is suspect from its eighth change within a minute on'),
        test(
          'unit/controller/relay-chatters.test.ts',
          'is one medium alarm within the first minute, and stays one',
        ),
        test('simulation/seven-ways-power.test.ts', 'the read-back of the relay, from 11:20 on a hot day'),
      ],
    },
    {
      number: 14,
      fault: 'pump dead',
      detection: 'relay closed, no flow',
      reaction: 'retries, missed, alarm',
      invariants: ['I2'],
      layers: ['S'],
      injectors: ['pump-dead'],
      tests: [
        CAMPAIGN,
        test(
          'simulation/pump-faults.test.ts',
          'is told within 60 s of the deadline of the first flood after it, with the right place to look',
        ),
        test(
          'simulation/pump-faults.test.ts',
          'is told with at least half of the true time left still to run, counted from the failure',
        ),
      ],
    },
    {
      number: 15,
      fault: 'filter or pump clogs',
      detection: 'flow below 88 % of the best that was usual; below 70 % of the learned',
      reaction:
        'warns early; after a weak flood the longest that the bounds allow, while the tank is seen to hold water',
      invariants: ['I1'],
      layers: ['S'],
      injectors: ['filter-clogging', 'filter-clogged'],
      tests: [
        CAMPAIGN,
        test(
          'simulation/sensor-faults.test.ts',
          'is told of at the end of the flood in which it clogged, and no later flood counts as confirmed',
        ),
        test(
          'simulation/slow-clog.test.ts',
          'is told first as a return lower than it used to be: before day 4, at a flow of 0.83 or more',
        ),
        test('simulation/slow-clog.test.ts', 'gets the longest floods of the bounds from then on'),
        test('simulation/slow-clog.test.ts', 'leaves no bench below its stress floor'),
      ],
    },
    {
      number: 16,
      fault: 'air in the pump after a refill',
      detection:
        'no water by the end of the return lag; at the end of a flood less than 70 % of the usual flow',
      reaction:
        'pause and three minutes more, twice, then missed; air that lets a third of the flow through is a weak flow, or a missed flood that says how little came back',
      invariants: ['I1', 'I3'],
      layers: ['S'],
      injectors: ['relay-open', own('simulation/air-lock.ts', 'airLocked')],
      tests: [
        CAMPAIGN,
        test(
          'simulation/air-in-pump.test.ts',
          'from %f h on is gone with the priming: floods confirmed, before that at most weak, none missed',
        ),
        test(
          'simulation/air-in-pump.test.ts',
          'from %f h on is told as a weak flow by the first flood or the next; a missed flood says how little came back',
        ),
        test(
          'simulation/air-in-pump.test.ts',
          'from %f h on is one missed-flood alarm within 60 s of the deadline, with half of the true time left to run',
        ),
      ],
    },
    {
      number: 17,
      fault: 'tank low, or its float stuck low',
      detection: 'float; contradicted by flow or level',
      reaction: 'tank-low rule with sips; shortened floods where the float is contradicted; high alarm',
      invariants: ['I1'],
      // No layer A: the judgement of the firmware is tried as it is compiled for this machine.
      layers: ['S', 'P'],
      injectors: ['float-stuck-low', 'top-up-stopped', 'leak'],
      tests: [
        CAMPAIGN,
        test(
          'simulation/empty-tank.test.ts',
          'goes on with sips of at most 3 min, one in ten minutes at most',
        ),
        test(
          'keeper/core/tank.cpp',
          'a float stuck low with water coming back: suspect, floods of 300 s each 2,400 s, 48 h long',
        ),
      ],
    },
    {
      number: 18,
      fault: 'return blocked, water on the floor',
      detection:
        'two signs of leak sensor and overflow float; with none fitted a missed flood and the low tank',
      reaction:
        'one sign: shortest floods, none tried again, and an alarm; two: stop, last sip before the wilt floor; what goes to the floor is never more than the tank and its top-up hold',
      invariants: ['I1', 'I3'],
      // No layer A: the judgement of the firmware is tried as it is compiled for this machine.
      layers: ['S', 'P'],
      injectors: ['sensor-wrong', own('simulation/blocked-return.ts', 'blockedReturn')],
      tests: [
        CAMPAIGN,
        test(
          'simulation/blocked-return.test.ts',
          'from %f h, %f of it left: both wet stop the floods; sips of 220 s in half an hour keep every bench above its wilt floor',
        ),
        test(
          'simulation/blocked-return.test.ts',
          'from %f h, %f of it left: floods of 10 min, none tried again, while there is water; every bench above its stress floor',
        ),
        test(
          'simulation/blocked-return.test.ts',
          'from %f h, %f of it left: told by the missed flood or the low tank; every bench above its stress floor',
        ),
        test(
          'keeper/core/mains.cpp',
          "both wet: the keeper's flood stops at once, at each of its seconds; then sips of 20, 20 and 180 s each 600 s",
        ),
      ],
    },
    {
      number: 19,
      fault: 'leak in the loop, or a leak sensor that lies',
      detection: 'tank falls from rest to rest beyond what plants drink',
      reaction: 'warns with litres an hour, then alarm',
      invariants: ['I2'],
      layers: ['S'],
      injectors: ['leak', 'sensor-wrong'],
      tests: [
        CAMPAIGN,
        test('simulation/scenarios.test.ts', '$name: $says'),
        test(
          'simulation/tank-trend.test.ts',
          'from 9:00 of the scenario is told within 2.5 h, as 20 to 60 L/h, an hour before the float goes low',
        ),
      ],
    },
    {
      number: 20,
      fault: 'switch left by hand, or a bypass',
      detection:
        'current that nobody asked for, past a relay that is open; a relay that closes by itself is row 12',
      reaction:
        'told as a switch left by hand, medium; high and spoken anew after a third of longest-on, the longest that motor and roots are given; beside a plain timer after longest-on; one left off is a missed flood that asks for plug and switch',
      invariants: ['I1', 'I4'],
      layers: ['S'],
      injectors: ['pump-unplugged', 'relay-welded', own('simulation/hand-switch.ts', 'handSwitched')],
      tests: [
        CAMPAIGN,
        test(
          'simulation/by-hand.test.ts',
          'is told within 6 min, called out at a third of longest-on, never as a relay or a stuck sensor, and over 2 min after it',
        ),
        test(
          'simulation/by-hand.test.ts',
          'looks like a plain timer where one is, until it has run for longest-on: high then',
        ),
        test('simulation/by-hand.test.ts', 'is told high at once as the relay: pull the plug'),
        test(
          'simulation/by-hand.test.ts',
          'is one missed-flood alarm, high, that asks for plug and switch, and is over with the next confirmed flood',
        ),
        test(
          'unit/controller/unasked.test.ts',
          'past its open relay is told after 30 s as a switch left by hand, and called out at 15 min, a third of longest-on',
        ),
      ],
    },
  ],
};

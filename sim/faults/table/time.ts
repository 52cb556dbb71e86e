import { CAMPAIGN, own, test, type FaultGroup } from '../fault-row.ts';

export const TIME: FaultGroup = {
  group: 'Time and schedule',
  rows: [
    {
      number: 21,
      fault: 'wall clock jumps',
      detection: 'wall minus monotonic',
      reaction: 'goes on by monotonic time, in the hot part of the plan',
      invariants: ['I9'],
      layers: ['O', 'S'],
      injectors: ['clock-ahead', 'clock-back'],
      tests: [
        CAMPAIGN,
        test(
          'simulation/clocks.test.ts',
          'by %d h: benches stay wet, no rest by day is beyond 75 min, and it is told once',
        ),
        test(
          'system/run-clock.test.ts',
          '%s neither ends the flood under way nor starts another, and the pump stays on',
        ),
      ],
    },
    {
      number: 22,
      fault: 'no clock at start: 1970, or the last time on the disk',
      detection: 'date before 2020; nothing known to have set it since the machine was started',
      reaction:
        'time unknown: hot part of the plan, no date in words; a plausible one until the network or a person has set it, with an alarm after 15 min; one that stood stands on, and what waits for the day goes on waiting till then',
      invariants: ['I1', 'I9'],
      layers: ['O', 'S'],
      injectors: ['clock-unset'],
      tests: [
        CAMPAIGN,
        test('simulation/clocks.test.ts', '%s keeps every bench above its stress floor for two hot days'),
        test(
          'simulation/clocks.test.ts',
          '%d h behind: benches stay wet, and it is told once, within 45 min',
        ),
        test(
          'unit/controller/clock-after-start.test.ts',
          'stands on as Ana acknowledged it, neither ended nor raised anew, while nothing has set it yet',
        ),
        test(
          'unit/controller/clock-after-start.test.ts',
          'goes on waiting for 07:00 where %s, in that moment too',
        ),
        test(
          'system/run-clock.test.ts',
          'floods after its 10 s, as on the hottest part of the plan, and writes no date',
        ),
        test(
          'system/run-no-date.test.ts',
          'a host that wakes in 1970, twice, is asked by text and floods: no entry of its book and no word of its status has a time of day',
        ),
        test(
          'unit/upkeep/gap-date.test.ts',
          'has no date, as no entry after it, where the machine was started anew and nothing is known to have set its clock',
        ),
        test(
          'unit/herald/kept-calls.test.ts',
          'goes without a time of day while the clock is in doubt, and not with the one of the disk',
        ),
      ],
    },
    {
      number: 23,
      fault: 'summer time begins or ends',
      detection: 'offset of the zone',
      reaction: 'local time is worked out for each instant',
      invariants: ['I9'],
      layers: ['P'],
      injectors: [own('support/clock-changes.ts', 'clockChanges')],
      tests: [
        test(
          'unit/plan/clock-change.test.ts',
          'gives each part its number of floods, none skipped and none doubled: ${name}',
        ),
        test(
          'simulation/clocks.test.ts',
          'has no rest beyond the longest of 210 min by night, none inside the shortest of 10 by day',
        ),
      ],
    },
    {
      number: 24,
      fault: 'leap day, end of year, 2038',
      detection: 'none needed',
      reaction: 'only days of the year and instants',
      invariants: ['I9'],
      layers: ['P'],
      injectors: [own('unit/time/local-day.test.ts', '2038-01-19T03:14:08Z')],
      tests: [
        test(
          'unit/time/local-day.test.ts',
          '29 February is a day of 2028 and the day after 28 February 2027 is 1 March',
        ),
        test(
          'unit/time/local-day.test.ts',
          '19 January 2038, where 32-bit seconds end, is followed by the 20th',
        ),
      ],
    },
    {
      number: 25,
      fault: 'event loop stalls',
      detection: 'the watchdog is not fed',
      reaction:
        'past its 60 s the service is killed and started anew, the gap is written down; the board keeps the plants',
      invariants: ['I8', 'I4'],
      layers: ['T', 'S'],
      injectors: ['late-ticks', own('contract/cable-trouble.ts', 'stalledAt')],
      tests: [
        CAMPAIGN,
        test(
          'unit/devices/keeper/lease.test.ts',
          'is not renewed without a tick, whatever the timers do; the board has its pump back after 10 s',
        ),
        test(
          'system/run-stalled.test.ts',
          'feeds it no more and is ended for that; the flood goes on meanwhile, and the next host is ready and fed',
        ),
      ],
    },
    {
      number: 26,
      fault: 'process frozen, machine suspended',
      detection: 'heartbeat; gap of monotonic time on waking',
      reaction: 'the board takes over, the host joins in again, no late floods in a row',
      invariants: ['I3', 'I4'],
      layers: ['O', 'S'],
      injectors: ['host-frozen'],
      tests: [
        CAMPAIGN,
        test(
          'keeper/firmware/take-over.test.ts',
          'owns the pump for at most 10 s more, at each of 100 seeded phases',
        ),
        test(
          'system/run-clock.test.ts',
          'goes on with it: no flood is made up for, and the pump is asked nothing',
        ),
        test(
          'system/run-frozen.test.ts',
          'on stock firmware ends it at its first look, begins no other, and calls nobody about its slow disk',
        ),
        test(
          'system/run-frozen.test.ts',
          'on the compiled firmware finds the flood ended in time by the board, and has the pump again within 10 s',
        ),
      ],
    },
    {
      number: 27,
      fault: 'timers over 24.8 days; board counter wraps at 49.7',
      detection: 'none needed',
      reaction: 'looks at most five minutes apart; unsigned subtraction on the board',
      invariants: ['I9'],
      // No layer A: the judgement of the firmware is tried as it is compiled for this machine.
      layers: ['P'],
      injectors: [own('keeper/core/numbers.cpp', 'uptime')],
      tests: [
        test(
          'keeper/core/numbers.cpp',
          'floods go on by the table while the uptime passes 2^32 s, as it does 2^31 s',
        ),
        test('unit/controller/laws.test.ts', 'wants to be called again after now and within 5 min'),
      ],
    },
    {
      number: 28,
      fault: 'clocks of host and board drift apart',
      detection: 'uptime of the board against monotonic time',
      reaction:
        'host counts; a low alarm above 2 %, a medium one above 5 %, over a reset too; beyond what its line stands the board is silent',
      invariants: ['I9'],
      layers: ['S', 'A'],
      injectors: [own('keeper/drifting-clock.test.ts', 'clockError')],
      tests: [
        test(
          'keeper/drifting-clock.test.ts',
          '%s: floods begin within 12 s of those of a right clock and last 4 s more or less; one alarm after 603 s, which a reset neither ends nor repeats; alone it is as far off as its clock',
        ),
        test(
          'keeper/drifting-clock.test.ts',
          '%s: no byte comes through; told high as a silent board after 30 s, and its own floods are as far off as its clock',
        ),
        test(
          'keeper/firmware/clock-error.test.ts',
          '%s: no flood begins or ends more than a minute earlier or later than with a clock that is right',
        ),
        test('unit/devices/keeper/keeper-words.test.ts', 'a drift below 2 % is none'),
      ],
    },
    {
      number: 29,
      fault: 'clock wrong by years',
      detection: 'step of more than a day',
      reaction: 'monotonic plan, a person is asked',
      invariants: ['I9'],
      layers: ['O', 'S'],
      injectors: ['clock-years'],
      tests: [
        CAMPAIGN,
        test(
          'simulation/clocks.test.ts',
          'by %d h: benches stay wet, no rest by day is beyond 75 min, and it is told once',
        ),
        test(
          'system/run-clock.test.ts',
          '%s neither ends the flood under way nor starts another, and the pump stays on',
        ),
      ],
    },
  ],
};

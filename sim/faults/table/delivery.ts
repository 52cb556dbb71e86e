import { CAMPAIGN, own, test, type FaultGroup } from '../fault-row.ts';

export const DELIVERY: FaultGroup = {
  group: 'Alarm delivery',
  rows: [
    {
      number: 54,
      fault: 'network or broker down',
      detection: 'time limit of an attempt',
      reaction:
        'tried again, later each time; the other channels and the next person meanwhile; a dead channel is a medium alarm: by the others, in status and by the lamp; the buzzer sounds for what is high, with or without a network',
      invariants: ['I7'],
      layers: ['T', 'S'],
      injectors: ['network-gone', 'channel-refusing', own('unit/delivery/virtual-network.ts', 'FAILS')],
      tests: [
        CAMPAIGN,
        test(
          'unit/herald/broker-channel.test.ts',
          'that dies is told in words within 4 s, and the next call goes out once it is back',
        ),
        test(
          'unit/delivery/delivery-laws.test.ts',
          'once the channels are well again each call of the last minute is delivered',
        ),
      ],
    },
    {
      number: 55,
      fault: 'modem hangs, card locked, no credit',
      detection: 'no answer in 60 s; codes of error',
      reaction: 'modem reset; another channel',
      invariants: ['I7'],
      layers: ['T', 'S'],
      injectors: ['channel-hung', own('unit/herald/fake-modem.ts', 'hang')],
      tests: [
        CAMPAIGN,
        test(
          'unit/herald/gsm-channel.test.ts',
          'a modem that hangs at %s is told to start anew by AT+CFUN=1,1',
        ),
        test(
          'unit/herald/gsm-channel.test.ts',
          'a PIN is entered once; one that the card refuses is never given again',
        ),
      ],
    },
    {
      number: 56,
      fault: 'mail server slow or refusing',
      detection: 'time limit of each phase',
      reaction: 'tries again, within a bound, beside the others',
      invariants: ['I7', 'I8'],
      layers: ['T'],
      injectors: [own('unit/herald/mail-channel.test.ts', 'silent')],
      tests: [
        test('unit/herald/mail-channel.test.ts', '%s falls silent is given up within 2 s'),
        test(
          'system/herald.test.ts',
          'delays this thread by less than 250 ms while modem, mail server and webhook hang with 50 calls',
        ),
      ],
    },
    {
      number: 57,
      fault: 'accepted and never arrives',
      detection: 'nobody acknowledges',
      reaction: 'next person, next channel',
      invariants: ['I7'],
      // No layer S: nobody in a simulated shed acknowledges, so that no case without it stands apart.
      layers: ['P', 'T'],
      injectors: [own('unit/alarm/called-on.ts', 'calledOn')],
      tests: [
        test('unit/alarm/escalation.test.ts', 'goes to the next person every 10 min while much time is left'),
        test('unit/alarm/escalation.test.ts', 'says that nobody has answered, and how many minutes are left'),
        test('unit/delivery/delivery.test.ts', 'of rung 1 goes to the second person'),
        test(
          'system/run-seen-late.test.ts',
          'an "ok" that comes when the alarm is over acknowledges it: 1 entry, and status, which told of it as over, no more does',
        ),
      ],
    },
    {
      number: 58,
      fault: 'many alarms at once',
      detection: 'count in ten minutes',
      reaction: 'grouped, the first one shown',
      invariants: ['I7'],
      layers: ['S'],
      injectors: ['link-flapping'],
      tests: [
        CAMPAIGN,
        test('simulation/sensor-faults.test.ts', '%s raises at most 3 alarms in its day'),
        test(
          'unit/alarm/grouping.test.ts',
          'begins with the eleventh call in 10 min: from there on at most 3 messages a moment',
        ),
        test('unit/alarm/grouping.test.ts', 'stays in the list and is not called: 2 alarms, 1 call'),
      ],
    },
    {
      number: 59,
      fault: 'alarm shelved and forgotten',
      detection: 'end of its shelf time',
      reaction: 'speaks again; a water alarm cannot be shelved',
      invariants: ['I7'],
      layers: ['P'],
      injectors: [own('unit/controller/shelve.test.ts', 'shelve')],
      tests: [
        test(
          'unit/alarm/shelving.test.ts',
          'ends by itself, and the alarm is raised anew; by a person it ends before',
        ),
        test(
          'unit/alarm/shelving.test.ts',
          'is refused with a reason for each of the 14 kinds that are about water, however short',
        ),
        test(
          'system/shelve.test.ts',
          'shelve puts off what is not about water, for half of the time left at most, and tells it again at 0; of water nothing',
        ),
      ],
    },
    {
      number: 60,
      fault: 'the whole shed is dark',
      detection: 'an outside watcher misses the host',
      reaction: 'the farm file names the watcher, or says nobody; a broker tells the last will in 40 s',
      invariants: ['I7'],
      layers: ['T'],
      injectors: [own('system/herald.test.ts', 'SIGSTOP')],
      tests: [
        test('system/herald.test.ts', 'tells a watcher outside the last will "lost", retained, when %s'),
        test(
          'unit/farm/parse.test.ts',
          'accepts the example: 4 benches with the traits of their crops, 4 day parts, defaults filled in',
        ),
      ],
    },
  ],
};

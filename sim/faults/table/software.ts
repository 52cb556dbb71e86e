import { CAMPAIGN, own, test, type FaultGroup } from '../fault-row.ts';

export const SOFTWARE: FaultGroup = {
  group: 'Software, network, people',
  rows: [
    {
      number: 61,
      fault: 'flood of requests, slow sockets',
      detection: 'bytes of a peer in a minute, time of a delivery',
      reaction:
        'nothing listens on the network, and who knocks at the name in the kernel is cut; what peers answer is read with limits of time and length',
      invariants: ['I8'],
      layers: ['O', 'T'],
      injectors: [
        own('support/loud-peers.ts', 'startLoud'),
        own('system/run-loud.test.ts', 'babbler'),
        own('system/run-listens.test.ts', 'LISTENER'),
      ],
      tests: [
        test(
          'system/run-listens.test.ts',
          'has no TCP or UDP socket that waits for somebody, and cuts 300 who knock at its name in the kernel',
        ),
        test(
          'system/run-listens.test.ts',
          'finds those of a process and of its child: of TCP and UDP, IPv4 and IPv6, 8 of 8',
        ),
        test(
          'system/run-loud.test.ts',
          'loud mail server, broker, modem and webhooks leave a host below ${MEMORY.large} MB, and its floods on time',
        ),
        test('unit/herald/loud-peers.test.ts', '%s is cut after 64 kB, within 2 s'),
        test('unit/herald/loud-peers.test.ts', '%s is cut after 4 kB a minute, and told as one that failed'),
        test('unit/herald/loud-peers.test.ts', '%s is left when its 1.5 s are over, or before'),
        test('unit/herald/mail-channel.test.ts', 'EHLO drips without end is cut when its 3 s are over'),
      ],
    },
    {
      number: 62,
      fault: 'memory leaks',
      detection: 'its own resident memory, three times a minute: 200 MB or more for 60 s',
      reaction:
        'low alarm; where a service manager starts it anew it ends between floods, by night if that can wait',
      invariants: ['I6'],
      layers: ['P', 'T', 'O'],
      injectors: [
        own('contract/link-cycles.test.ts', 'cycledShed'),
        own('system/run-leaking.test.ts', 'leakOf'),
      ],
      tests: [
        test(
          'contract/link-cycles.test.ts',
          'holds as many timers after the last cycle as after the first tenth, and no client of before',
        ),
        test(
          'unit/upkeep/memory.test.ts',
          'is too large from 200 MB on, once it has been so for 60 s, since the first look that showed it',
        ),
        test(
          'unit/upkeep/renewal.test.ts',
          'ends not twice within 20 h, near its limit not twice within one',
        ),
        test(
          'system/run-leaking.test.ts',
          'under a service manager ends with 75 between floods, is started anew, and loses none',
        ),
      ],
    },
    {
      number: 63,
      fault: 'forged request, guest stops the pump',
      detection: 'number of the sender as a whole, words of the text as a whole',
      reaction:
        'from outside come only texts: "?" asks and "ok" silences, from listed numbers; all else does nothing and is written down. The broker is asked for nothing; a hold ends by itself',
      invariants: ['I10', 'I4'],
      // No layer B: orders are given at the board and on this machine, and no page is served that could be made to send one.
      layers: ['T'],
      injectors: [
        'hold',
        'flood-now',
        'odd-orders',
        own('system/run-forged.test.ts', 'STRANGERS'),
        own('system/texting-modem.ts', 'comes'),
      ],
      tests: [
        CAMPAIGN,
        test(
          'system/run-forged.test.ts',
          'texts from 7 strangers, 7 orders from a listed number and 6 messages at the broker neither start nor stop the pump, nor silence an alarm',
        ),
        test(
          'unit/delivery/delivery.test.ts',
          'from %s, which is not listed, is answered with nothing and leaves one line without its words',
        ),
        test('unit/delivery/delivery.test.ts', '"%s" from a listed number neither acknowledges nor asks'),
        test('unit/command/orders.test.ts', 'of whatever length has ended 240 min later'),
        test(
          'system/run-listens.test.ts',
          'has no TCP or UDP socket that waits for somebody, and cuts 300 who knock at its name in the kernel',
        ),
      ],
    },
    {
      number: 64,
      fault: 'update broken off, older data',
      detection:
        'the new folder is looked into first; failures of the service are counted; version of the data',
      reaction:
        'two folders and a link changed in one step; the old one after three failures, told; later data set aside whole',
      invariants: ['I6'],
      layers: ['T'],
      injectors: [
        own('system/kill-at-step.ts', 'KILL_AT_STEP'),
        own('system/program-folders.ts', 'throwsAtStart'),
      ],
      tests: [
        test(
          'system/update-killed.test.ts',
          'before or after each of its steps on the disk, one after the other, leaves a link to a whole program that works',
        ),
        test(
          'system/way-back.test.ts',
          'fails 3 times, then the one before it floods again, calls it by an alarm, and is as ever after a clean stop',
        ),
        test(
          'system/way-back.test.ts',
          'cut by kill -9 before or after each of its 6 steps has a link to a whole folder',
        ),
        test('system/update.test.ts', 'ends with $code, says why and what to do, and changes nothing'),
        test(
          'unit/storage/journal-book.test.ts',
          'of a later version is set aside under a name that says so, not one byte of it changed',
        ),
      ],
    },
  ],
};

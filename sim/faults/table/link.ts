import { CAMPAIGN, own, test, type FaultGroup } from '../fault-row.ts';

export const LINK: FaultGroup = {
  group: 'Host and board',
  rows: [
    {
      number: 30,
      fault: 'cable pulled, put into another port',
      detection: 'port closes; acks are missed',
      reaction: 'found again by the identity of the board, which keeps the plants',
      invariants: ['I1', 'I4'],
      layers: ['T', 'S'],
      injectors: ['link-lost', 'link-flapping', own('contract/cable-trouble.ts', 'unplug')],
      tests: [
        CAMPAIGN,
        test('contract/loss-facts.ts', 'is found by its identity on another port, with the relay at rest'),
        test(
          'simulation/absences.test.ts',
          'at 50 moments of chance: 0 floods lost, 0 doubled inside 10 min, one verdict for each',
        ),
      ],
    },
    {
      number: 31,
      fault: 'garbage, cut or endless frames',
      detection: 'checksum, cap of length; share of spoilt messages',
      reaction: 'frame dropped, counted, next one heard; low alarm above 5 % a minute',
      invariants: ['I10'],
      layers: ['P', 'T', 'A'],
      injectors: [
        own('contract/spoilt-bytes.ts', 'anyBytes'),
        own('unit/devices/line-watch.test.ts', 'spoilt'),
      ],
      tests: [
        test(
          'keeper/core/frames.cpp',
          '10,000,000 random bytes: nothing is answered without a good checksum, nothing grows past its bound',
        ),
        test(
          'keeper/firmware/any-bytes.test.ts',
          'move no start and no end of the two floods by more than 0.25 s, and make none',
        ),
        test(
          'contract/any-bytes.test.ts',
          'throw nothing, pull no relay and tell nothing that is not wired: $moment',
        ),
        test(
          'unit/devices/line-watch.test.ts',
          'is bad when more than 5 % of the messages of a minute come spoilt, and says how many',
        ),
        test(
          'unit/alarm/host-cards.test.ts',
          'is a line that spoils 1 message in 12: low, with its share, and one that spoils nearly all',
        ),
      ],
    },
    {
      number: 32,
      fault: 'acks lost, repeated or late',
      detection: 'sequence number, time of an answer',
      reaction: 'commands bear a number; state is asked for again',
      invariants: ['I4'],
      layers: ['S', 'P'],
      injectors: [
        'link-flapping',
        'samples-lost',
        'samples-repeated',
        own('keeper/handover/line.h', 'Queue'),
      ],
      tests: [
        CAMPAIGN,
        test(
          'unit/devices/keeper/bad-line.test.ts',
          'bring no order with an epoch that was not claimed, and no heartbeat without a completed tick',
        ),
      ],
    },
    {
      number: 33,
      fault: 'host and board both take the pump',
      detection: 'epoch in every command',
      reaction: 'the board takes only the epoch that holds',
      invariants: ['I4'],
      layers: ['S', 'P'],
      injectors: [own('keeper/handover/explorer.h', 'Reached')],
      tests: [
        test(
          'keeper/handover/hand_over.cpp',
          'board, host and line in every order: no order of another ownership obeyed, no flood doubled, the pump back after faults',
        ),
      ],
    },
    {
      number: 34,
      fault: 'stored table spoilt',
      detection: 'checksum of two copies and of the flash',
      reaction: 'the whole one, else that of the flash; told; written anew',
      invariants: ['I1'],
      layers: ['A', 'P'],
      injectors: [own('keeper/core/cut_store.h', 'cut')],
      tests: [
        test(
          'keeper/core/slots.cpp',
          'power cut at every byte of a put, torn in 5 ways: the old table or the new one, in both slots',
        ),
        test(
          'keeper/firmware/power-cut.test.ts',
          'leave the old table or the new one in 48 seeded pairs, and the next put holds',
        ),
        test(
          'keeper/firmware/self-test.test.ts',
          'in one byte of each: the table of the flash holds, and a failed test is told',
        ),
        test(
          'keeper/core/slots.cpp',
          'any one of 8,192 bits turned over: the table in force, the one before it, or that of the flash',
        ),
      ],
    },
    {
      number: 35,
      fault: 'versions of firmware and host differ',
      detection: 'version in the handshake',
      reaction: 'another major is not driven, and how to update is said',
      invariants: ['I10'],
      layers: ['T'],
      injectors: [own('unit/devices/refused-keeper-board.test.ts', 'major: 3')],
      tests: [
        test(
          'system/board-keeper.test.ts',
          'of a board that speaks another major protocol ends with 69 and says to flash it',
        ),
        test('unit/devices/keeper/refused-board.test.ts', 'is taken once it has been flashed rightly'),
      ],
    },
    {
      number: 36,
      fault: 'another device on the port',
      detection: 'handshake fails',
      reaction: 'nothing is written blindly, the next candidate is tried',
      invariants: ['I10'],
      layers: ['T'],
      injectors: [own('contract/cable-trouble.ts', 'stranger')],
      tests: [
        test(
          'contract/stranger-facts.ts',
          'writes no byte to a device that speaks no Firmata, and finds the board behind it',
        ),
        test('contract/link-cycles.test.ts', 'changes no pin of a board of somebody else'),
      ],
    },
    {
      number: 37,
      fault: 'two hosts for one board',
      detection: 'names in the kernel of state folder and port, lock of the port',
      reaction: 'the second ends and says whose it is, whatever its state folder or farm file',
      invariants: ['I4'],
      layers: ['T'],
      injectors: [own('system/run-second.test.ts', 'second')],
      tests: [
        test('system/run-second.test.ts', '%s ends with 3 and names the process of the first'),
        test(
          'system/run-board.test.ts',
          'floods, is told of by status, keeps the port to itself, and at SIGTERM lets go of the relay',
        ),
      ],
    },
  ],
};

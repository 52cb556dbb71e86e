import { CAMPAIGN, own, test, type FaultGroup } from '../fault-row.ts';

export const STORAGE: FaultGroup = {
  group: 'Storage',
  rows: [
    {
      number: 47,
      fault: 'disk full',
      detection: 'write fails for want of room',
      reaction: 'control goes on; newest kept in memory; alarm',
      invariants: ['I1', 'I7'],
      layers: ['O', 'S'],
      injectors: ['disk-full'],
      tests: [
        CAMPAIGN,
        test(
          'system/run-unwritten.test.ts',
          'status on a full disk says that the host runs and cannot write, of one that is stopped that it hangs, and NO HOST once it has ended',
        ),
        test(
          'journal/full-disk.test.ts',
          'that another program fills, alarms are written from the reserve of 1 MB, and all the rest once there is room',
        ),
        test(
          'unit/journal/queue.test.ts',
          'writes the alarm alone at once, and the rest in order when there is room',
        ),
      ],
    },
    {
      number: 48,
      fault: 'disk read only',
      detection: 'write is refused',
      reaction: 'as a full disk',
      invariants: ['I1'],
      layers: ['O', 'S'],
      injectors: ['disk-failing', own('journal/full-disk.test.ts', 'read-only')],
      tests: [
        CAMPAIGN,
        test(
          'journal/full-disk.test.ts',
          'that is read-only, the host begins all the same, keeps in memory, and writes once it may',
        ),
      ],
    },
    {
      number: 49,
      fault: 'last write torn or out of order',
      detection: 'check at start, numbers of the rows',
      reaction: 'what recovered is kept, a damaged file set aside, the gap written',
      invariants: ['I5'],
      layers: ['P'],
      injectors: [own('unit/storage/journal-damage.test.ts', 'flipped')],
      tests: [
        test(
          'unit/storage/journal-damage.test.ts',
          'with its log cut at any byte of its last batch, and every 7th before, holds all that was acknowledged before the cut',
        ),
      ],
    },
    {
      number: 50,
      fault: 'a flush to disk fails once',
      detection: 'its answer',
      reaction: 'the file is opened anew and written again from memory; alarm',
      invariants: ['I5'],
      layers: ['P', 'S'],
      injectors: ['disk-failing'],
      tests: [
        CAMPAIGN,
        test(
          'unit/journal/queue.test.ts',
          'comes through any mix of mishaps with no number missing, nothing lost and all in order',
        ),
      ],
    },
    {
      number: 51,
      fault: 'disk takes seconds',
      detection: 'time of a write',
      reaction:
        'a bounded queue; control never waits; a start does, at most 2 s for each of two small files, or once where it hangs, and 5 s for the book: then it has the board, and gives no flood until the book is read, for 10 min at most; a book that hangs gets no watchdog fed',
      invariants: ['I8'],
      layers: ['O', 'S'],
      injectors: ['disk-slow', own('journal/slow-disk.test.ts', 'pause')],
      tests: [
        CAMPAIGN,
        test(
          'journal/slow-disk.test.ts',
          'that takes 5 s for each write: 700 calls in 7 s take less than 250 ms each, and all arrive',
        ),
        test(
          'journal/late-book.test.ts',
          'and whose disk never answers is waited for 5 s, and the start goes on without it',
        ),
        test(
          'unit/storage/write-in-time.test.ts',
          'is given up after 2 s, and no other is begun in that root until it has come back',
        ),
        test(
          'system/run-hung-disk.test.ts',
          'a book whose disk fails once and hangs after that is told as hung within ${TOLD_SECONDS + 5} s, and the watchdog fed no more',
        ),
        test(
          'system/run-hung-disk.test.ts',
          'a start on a state folder that hangs as a whole has its board within ${IN_HAND_SECONDS} s and keeps it, and the watchdog is fed',
        ),
      ],
    },
    {
      number: 52,
      fault: 'journal very large, or damaged inside',
      detection: 'check at start',
      reaction: 'bounded in size and age; damaged file set aside',
      invariants: ['I5', 'I6'],
      layers: ['P'],
      injectors: [own('unit/storage/journal-damage.test.ts', 'flipped')],
      tests: [
        test(
          'unit/storage/journal-book.test.ts',
          'by size: a book of 3 MB under a limit of 1 MB gives up the oldest readings first, in steps, and shrinks',
        ),
        test(
          'unit/storage/journal-damage.test.ts',
          'cut at any 29th byte is set aside, and the numbers go on in a new one',
        ),
      ],
    },
    {
      number: 53,
      fault: 'farm file invalid, half written, wrong unit',
      detection: 'schema, then physics',
      reaction: 'refused with line and range; the last good one stays',
      invariants: ['I10'],
      layers: ['P', 'T'],
      injectors: [own('unit/farm/mutations.test.ts', 'mutation')],
      tests: [
        test(
          'unit/farm/mutations.test.ts',
          'never throw, and give either problems or a farm that holds what the rest relies on',
        ),
        test(
          'system/upkeep.test.ts',
          'runs the last good farm file where the file has become bad, and says so',
        ),
        test('unit/farm/parse.test.ts', 'guesses the unit of a number that is out of range'),
      ],
    },
  ],
};

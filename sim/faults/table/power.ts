import { CAMPAIGN, own, test, type FaultGroup } from '../fault-row.ts';

export const POWER: FaultGroup = {
  group: 'Power and process',
  rows: [
    {
      number: 1,
      fault: 'power of the host is cut at any instant',
      detection: 'no record of a clean stop at the next start',
      reaction: 'journal recovers, the run goes on from what board and journal tell, the gap is written down',
      invariants: ['I1', 'I5'],
      layers: ['S', 'P'],
      injectors: ['host-killed'],
      tests: [
        CAMPAIGN,
        test(
          'simulation/restarts.test.ts',
          'about every %d min on a hot day: benches stay wet, and the pump in its limits (seed %d)',
        ),
        test(
          'unit/storage/journal-damage.test.ts',
          'with its log cut at any byte of its last batch, and every 7th before, holds all that was acknowledged before the cut',
        ),
      ],
    },
    {
      number: 2,
      fault: 'the host process is killed',
      detection: 'the board hears no heartbeat; no clean stop',
      reaction: 'the service starts it anew, the board keeps the plants meanwhile',
      invariants: ['I4', 'I5'],
      layers: ['O', 'A'],
      injectors: [own('keeper/kills.ts', 'killed')],
      tests: [
        test('keeper/killed-facts.ts', 'loses no flood'),
        test(
          'journal/kills.test.ts',
          'loses none of the acknowledged entries in ${KILLS} kills at random moments, and its numbers have no gap',
        ),
        test(
          'system/run-board.test.ts',
          'killed outright leaves the relay as it is on a stock board, until the port is opened again',
        ),
      ],
    },
    {
      number: 3,
      fault: 'the host fails at each start',
      detection:
        'three starts within ten minutes; where no clock tells of different boots, five in a row none of which lasted that long',
      reaction:
        'safe mode: an alarm, nothing rehearsed first, no start anew for memory; floods, limits, calls and what was kept as always; a start that fails all the same is made again by the service: until one lives a keeper floods by its table, a stock board is as deadBoard says, and only a watcher outside hears of it',
      invariants: ['I1', 'I6'],
      layers: ['T', 'P'],
      injectors: [own('system/run-safe-mode.test.ts', 'DEFECT')],
      tests: [
        test(
          'unit/start/starts.test.ts',
          'the third within 10 min is safe mode, and says why; the second is not',
        ),
        test(
          'unit/start/starts.test.ts',
          'of such a machine are a loop at the fifth of which none has lasted 10 min, and it says so',
        ),
        test(
          'system/run-safe-mode.test.ts',
          'fails twice, comes up in safe mode at its third start without that, floods and calls; mended it is as ever',
        ),
        test(
          'unit/storage/kept-state.test.ts',
          'cut at any letter, or with any letter changed, never throws, and what is found can be gone on from',
        ),
      ],
    },
    {
      number: 4,
      fault: 'the board resets: watchdog, glitch',
      detection: 'first words of a start, uptime has fallen',
      reaction: 'table and time are sent again, floods and rests keep their phase, resets are counted',
      invariants: ['I1', 'I4'],
      layers: ['A', 'S'],
      injectors: ['board-reset', own('keeper/firmware/resets.test.ts', 'reset')],
      tests: [
        CAMPAIGN,
        test(
          'keeper/firmware/resets.test.ts',
          '%s in a rest: the next flood comes when the rest of 360 s is over, late by the reset alone',
        ),
        test(
          'keeper/core/resets.cpp',
          'a reset at each second of a rest (2,385 s) neither loses nor doubles nor moves the next flood',
        ),
      ],
    },
    {
      number: 5,
      fault: 'opening the port resets the board',
      detection: 'first words of a start right after the opening',
      reaction: 'waits for them, then as a reset',
      invariants: ['I3', 'I4'],
      layers: ['T', 'A'],
      injectors: [own('keeper/kills.ts', 'resetsOnOpen')],
      tests: [
        test('keeper/killed-facts.ts', 'loses no flood'),
        test('keeper/killed-facts.ts', 'doubles no flood'),
        test('contract/drive-facts.ts', 'has not pulled the relay through connect and for 2 s after it'),
      ],
    },
    {
      number: 6,
      fault: 'the input of the relay floats while the board starts',
      detection: 'read-back of the relay in the first status',
      reaction: 'a pull resistor holds it; the firmware drives the resting level before any other pin',
      invariants: ['I3'],
      layers: ['A'],
      injectors: [own('keeper/firmware/resets.test.ts', 'reset')],
      tests: [
        test('keeper/firmware/resets.test.ts', 'floats as long as a bootloader has the chip: 1.6 s'),
        test(
          'keeper/firmware/resets.test.ts',
          'goes to its level before any other pin after power-on, within 5 ms',
        ),
      ],
    },
    {
      number: 7,
      fault: 'the supply of the board sags',
      detection: 'cause of the reset; supply by the bandgap',
      reaction: 'fuse at 4.3 V, no write to the memory below 4.5 V, a warning',
      invariants: ['I3', 'I5'],
      // No layer S: the supply of a simulated board does not sag.
      layers: ['A', 'P'],
      injectors: [own('keeper/core/settle.cpp', 'BROWN_OUT')],
      tests: [
        test(
          'keeper/core/settle.cpp',
          'brown-outs that leave the RAM alone 1 to 60 s after each start: at most 2 starts in 10 min',
        ),
        test(
          'keeper/firmware/resets.test.ts',
          'by its supply, every 17 to 120 s, starts the pump at least once in 25 min, and at most twice in any 10 min',
        ),
      ],
    },
    {
      number: 8,
      fault: 'mains of the pump lost, electronics live',
      detection: 'pump asked on, no current, no flow',
      reaction: 'missed flood whose cause is the power of the pump',
      invariants: ['I2'],
      layers: ['S'],
      injectors: ['mains-lost'],
      tests: [
        CAMPAIGN,
        test('simulation/mains.test.ts', 'withhold no flood: each that begins is missed, for want of power'),
      ],
    },
    {
      number: 9,
      fault: 'the host is slow from heat',
      detection: 'temperature of the chip, delay of its ticks',
      reaction:
        'warns at 75 °C; a running host makes no report or chart, and book and calls have threads of their own; by its unit it goes before other programs (Nice=-5)',
      invariants: ['I8'],
      layers: ['S', 'O'],
      injectors: [
        'late-ticks',
        own('unit/upkeep/chip-heat.test.ts', 'zone'),
        own('system/run-crowded.test.ts', 'busy'),
      ],
      tests: [
        CAMPAIGN,
        test(
          'unit/upkeep/chip-heat.test.ts',
          'is too hot from 75 °C on, until it is below 70 °C, since the first reading',
        ),
        test(
          'unit/alarm/host-cards.test.ts',
          'is a chip of 78 °C: low, with dry hands before any other advice',
        ),
        test(
          'system/run-crowded.test.ts',
          '${BUSY_PER_CORE} busy processes a core make a host leave out no question at the board and no flood in ${SPAN_SECONDS} s, and none late by 1 s',
        ),
      ],
    },
    {
      number: 10,
      fault: 'no board at start, host lives',
      detection: 'no answer in ten seconds',
      reaction:
        'high alarm, with the plug to pull; the port is tried again, and its USB port powered off and on where the system lets it',
      invariants: ['I2'],
      layers: ['T'],
      injectors: [
        own('unit/controller/link.test.ts', 'DOWN'),
        own('unit/devices/port-power.test.ts', 'silentFor'),
        own('unit/devices/port-power.test.ts', 'hang'),
      ],
      tests: [
        test(
          'unit/controller/link.test.ts',
          'is high, comes 30 s after it fell silent and not before, and says why and how long is left',
        ),
        test(
          'contract/stranger-facts.ts',
          'writes no byte to a device that speaks no Firmata, and finds the board behind it',
        ),
        test(
          'unit/devices/port-power.test.ts',
          'is powered off for 5 s after a minute, again 10 min later, then hourly, five times in a day',
        ),
        test(
          'unit/devices/port-power.test.ts',
          'to a board that hangs has it again within 100 s, once its port was powered off and on',
        ),
        test(
          'unit/devices/port-power.test.ts',
          'to a board that the farm file does not want, or that talks and no Firmata, touches no port',
        ),
        test(
          'unit/devices/usb-port.test.ts',
          '%s is the port into which its device is plugged, not that of the hub above',
        ),
      ],
    },
  ],
};

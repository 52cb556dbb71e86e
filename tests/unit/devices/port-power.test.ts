import { describe, expect, it } from 'vitest';
import {
  createPortPower,
  type SilentBoard,
  type UsbPorts,
} from '../../../firmware-host/devices/port-power.ts';
import type { OpenLine } from '../../../firmware-host/devices/line.ts';
import type { Farm } from '../../../src/farm/farm.ts';
import { virtualTime } from '../../../firmware-host/virtual-time.ts';
import { passed, until, virtualBench } from '../../contract/bench.ts';
import { SERIAL_NUMBER, wiringWith } from '../../contract/bench-board.ts';
import { linkOn, up } from '../../contract/visit.ts';

const LINE = '/dev/ttyACM0';
const PORT = '/sys/1-1-port2';

/** Ports of a made machine, and what was done to them: `off` and `on` with the second. */
const made = (change: Partial<UsbPorts> = {}) => {
  const time = virtualTime(0);
  const done: string[] = [];
  const said: string[] = [];
  let note: string | null = null;
  const ports: UsbPorts = {
    portOf: (line) => Promise.resolve(line === LINE ? PORT : null),
    isOnlyThere: () => Promise.resolve(true),
    turn: (port, to) => {
      done.push(`${to} ${port} ${Math.round(time.timers.now() / 1000)}`);
      return Promise.resolve(null);
    },
    leftOff: () => Promise.resolve(note),
    note: (port) => {
      note = port;
      return Promise.resolve(null);
    },
    ...change,
  };
  const power = createPortPower({ ports, timers: time.timers, talk: (text) => said.push(text) });
  const pass = (seconds: number): Promise<void> => passed(time, seconds, 1);
  /** A board that is tried every 10 s, and does not answer. */
  const silentFor = async (
    seconds: number,
    how: 'open' | 'gone' = 'open',
    line = LINE,
    board: SilentBoard = 'idle',
  ): Promise<void> => {
    for (let tried = 0; tried < seconds; tried += 10) {
      power.silent(line, how, board);
      await pass(10);
    }
  };
  return { power, done, said, pass, silentFor, note: () => note };
};

describe('the USB port of a board that does not answer', () => {
  it('is powered off for 5 s after a minute, again 10 min later, then hourly, five times in a day', async () => {
    const { power, done, silentFor, note } = made();
    await silentFor(50);
    expect(done).toEqual([]);
    await silentFor(8 * 3600);
    const seconds = done.map((text) => Number(text.split(' ')[2]));
    expect(done.map((text) => text.split(' ')[0])).toEqual(
      Array.from({ length: 5 }, () => ['off', 'on']).flat(),
    );
    const offs = seconds.filter((_, place) => place % 2 === 0);
    const apart = offs.map((at, place) => at - (offs[place - 1] ?? 0));
    // At the next of the tries, which come every 10 s.
    const late = apart.map((waited, place) => waited - [60, 600, 3600, 3600, 3600][place]!);
    expect(late.filter((seconds) => seconds < 0 || seconds > 11)).toEqual([]);
    expect(seconds.filter((_, place) => place % 2 === 1).map((at, place) => at - offs[place]!)).toEqual([
      5, 5, 5, 5, 5,
    ]);
    expect(note()).toBeNull();
    await power.close();
  });

  it('is left alone while the board answers now and then', async () => {
    const { power, done, silentFor } = made();
    for (let turn = 0; turn < 20; turn += 1) {
      await silentFor(50);
      power.heard(LINE);
    }
    expect(done).toEqual([]);
  });

  it('is not powered off more often for a board that answers for a moment after each time', async () => {
    const { power, done, silentFor } = made();
    for (let turn = 0; turn < 8; turn += 1) {
      await silentFor(70);
      power.heard(LINE);
    }
    expect(done).toHaveLength(2);
  });

  it('is powered off five times a day at most for a board that falls silent each hour', async () => {
    const { power, done, silentFor, pass } = made();
    for (let hour = 0; hour < 23; hour += 1) {
      await silentFor(80);
      power.heard(LINE);
      await pass(3520);
    }
    expect(done).toHaveLength(10);
    await pass(2 * 3600);
    await silentFor(80);
    expect(done).toHaveLength(12);
  });

  it('is left alone for 4 h and a minute where the board may be flooding or held unheard', async () => {
    const { done, silentFor } = made();
    await silentFor(4 * 3600 + 50, 'open', LINE, 'unknown');
    expect(done).toEqual([]);
    await silentFor(20, 'open', LINE, 'unknown');
    expect(done).toHaveLength(2);
  });

  it('is left alone where another board answered on it, until the own one does', async () => {
    const { power, done, silentFor } = made();
    power.stranger(LINE);
    await silentFor(3600);
    expect(done).toEqual([]);
    power.heard(LINE);
    await silentFor(80);
    expect(done).toHaveLength(2);
  });

  it('is left alone while its line is there and cannot be opened: another program may flash the board', async () => {
    const { done, silentFor } = made();
    await silentFor(3600, 'gone');
    expect(done).toEqual([]);
  });

  it('is found again by what was known of it when the line has gone with the board', async () => {
    let isThere = true;
    const { power, done, silentFor, pass } = made({ portOf: () => Promise.resolve(isThere ? PORT : null) });
    power.heard(LINE);
    await pass(1);
    isThere = false;
    await silentFor(80, 'gone');
    expect(done.map((text) => text.split(' ').slice(0, 2))).toEqual([
      ['off', PORT],
      ['on', PORT],
    ]);
  });

  it('is left alone where something else is plugged in, and where the line is no USB device', async () => {
    const other = made({ isOnlyThere: () => Promise.resolve(false) });
    await other.silentFor(3600);
    const pty = made();
    await pty.silentFor(3600, 'open', '/dev/pts/3');
    expect([other.done, other.said, pty.done, pty.said]).toEqual([[], [], [], []]);
  });

  it('that cannot be switched is told once, with what to do by hand', async () => {
    const { said, silentFor, note } = made({ turn: () => Promise.resolve('no right to switch it') });
    await silentFor(3600);
    expect(said).toEqual([
      'The USB port of the silent board cannot be powered off and on: no right to switch it. Pull its plug and put it back.',
    ]);
    expect(note()).toBeNull();
  });

  it('is left as it is where nobody could know that it is off', async () => {
    const { done, said, silentFor } = made({ note: () => Promise.resolve('no space left') });
    await silentFor(3600);
    expect(done).toEqual([]);
    expect(said).toEqual([
      'The USB port of the silent board is left as it is, since that cannot be noted: no space left',
    ]);
  });

  it('is on again before a host that ends meanwhile has closed', async () => {
    const { power, done, silentFor, note } = made();
    await silentFor(60);
    power.silent(LINE, 'open', 'idle');
    await passedTurn();
    expect(done.map((text) => text.split(' ')[0])).toEqual(['off']);
    await power.close();
    expect([done.map((text) => text.split(' ')[0]), note()]).toEqual([['off', 'on'], null]);
  });

  it('that a host before has left off is powered on at the start', async () => {
    const { done, said, pass } = made({ leftOff: () => Promise.resolve(PORT) });
    await pass(1);
    expect(done.map((text) => text.split(' ')[0])).toEqual(['on']);
    expect(said[0]).toMatch(/left the USB port of the board off/);
  });

  it('that does not come on is tried five times, told, and stays noted', async () => {
    let tries = 0;
    const { said, silentFor, note } = made({
      turn: (_, to) => {
        if (to === 'on') tries += 1;
        return Promise.resolve(to === 'on' ? 'EIO' : null);
      },
    });
    await silentFor(80);
    expect([tries, note()]).toEqual([5, PORT]);
    expect(said.at(-1)).toMatch(/does not come on again \(EIO\): start this computer anew/);
  });
});

const passedTurn = (): Promise<void> => new Promise((turn) => setImmediate(turn));

describe('a link', () => {
  /** A link at a named port of a bench, and what was done to the power of that port. */
  const linked = async (wiring = wiringWith(), deadBoard: Farm['deadBoard'] = 'pump-stops') => {
    const bench = await virtualBench();
    const [line] = bench.ports;
    const done: string[] = [];
    let isHung = false;
    const ports: UsbPorts = {
      portOf: () => Promise.resolve(PORT),
      isOnlyThere: () => Promise.resolve(true),
      turn: async (_, to) => {
        done.push(to);
        isHung = false;
        if (to === 'off') await bench.unplug(line);
        else await bench.plug(line, bench.newBoard().peer, SERIAL_NUMBER);
        return null;
      },
      leftOff: () => Promise.resolve(null),
      note: () => Promise.resolve(null),
    };
    const open: OpenLine = (name, events, atOpening) => {
      const opened = bench.lines.open(name, events, atOpening);
      if (isHung) bench.stall(name);
      return opened;
    };
    await bench.plug(line, bench.newBoard().peer, SERIAL_NUMBER);
    const link = linkOn(bench, {
      wiring,
      deadBoard,
      port: line,
      lines: { ...bench.lines, open },
      power: createPortPower({ ports, timers: bench.timers, talk: () => undefined }),
    });
    const hang = (): void => {
      isHung = true;
      bench.stall(line);
    };
    return { bench, line, link, done, hang };
  };

  it('to a board that hangs has it again within 100 s, once its port was powered off and on', async () => {
    const { bench, link, done, hang } = await linked();
    await up(bench, link);
    hang();
    await until(bench, 'it is powered off', () => done.length > 0, 80);
    await until(bench, 'it is up again', () => link.link().kind === 'up', 20);
    expect(done).toEqual(['off', 'on']);
    await link.close();
  });

  it('to a board whose timer would run the pump without it, or that was never heard, leaves its power for hours', async () => {
    const timed = await linked(wiringWith(), 'plain-timer');
    await up(timed.bench, timed.link);
    timed.hang();
    await timed.bench.pass(600);
    expect(timed.done).toEqual([]);
    await timed.link.close();

    const unheard = await linked();
    unheard.hang();
    await unheard.bench.pass(600);
    expect(unheard.done).toEqual([]);
    await unheard.link.close();
  });

  it('to a board that the farm file does not want, or that talks and no Firmata, touches no port', async () => {
    const stranger = await linked(wiringWith({ identity: '0007' }));
    await stranger.bench.pass(300);
    expect([stranger.done, stranger.link.link().kind]).toEqual([[], 'down']);
    await stranger.link.close();

    const talks = await linked();
    talks.hang();
    for (let second = 0; second < 300; second += 1) {
      talks.bench.disturb(talks.line, [0x24, 0x47, 0x50, 0x0a]);
      await talks.bench.pass(1);
    }
    expect([talks.done, talks.link.link().kind]).toEqual([[], 'down']);
    await talks.link.close();
  });
});

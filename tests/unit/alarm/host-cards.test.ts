import { describe, expect, it } from 'vitest';
import { cardText } from '../../../src/alarm/card.ts';
import { hostCards } from '../../../src/alarm/host-cards.ts';
import type { HostHealth } from '../../../src/ports/host-health.ts';
import { exampleFarm } from '../../support/farm.ts';
import { minutesAgo, NOW } from './situations.ts';

const WELL: HostHealth = { journal: { kind: 'well' }, channels: [], safeMode: null, restarts: 1 };
const cards = (health: Partial<HostHealth>): readonly (readonly [string, string, string])[] =>
  hostCards(exampleFarm, { ...WELL, ...health }, NOW).map((card) => [
    card.kind,
    card.priority,
    cardText(card),
  ]);

describe('what the host tells of itself', () => {
  it('is nothing while it is well', () => {
    expect(cards({})).toEqual([]);
  });

  it('is one alarm however many channels are dead, the first that died with its reason', () => {
    const dead = (name: string): HostHealth['channels'][number] => ({
      name,
      why: 'no answer',
      since: minutesAgo(15),
    });
    expect(cards({ channels: [dead('text message'), dead('e-mail')] })).toEqual([
      [
        'channel-dead',
        'medium',
        'Nobody can be reached by text message since 13:42: no answer. So are: e-mail. ' +
          'An alarm may reach nobody. Look at it, and keep an eye on the shed meanwhile.',
      ],
    ]);
  });

  it('is a journal that records nothing, with what is lost; a slow one is low, and none for a minute', () => {
    const stopped = {
      kind: 'not-recording',
      why: 'no space left',
      sinceMonotonic: minutesAgo(15),
      dropped: 3,
    } as const;
    expect(cards({ journal: stopped })[0]).toEqual([
      'not-recording',
      'medium',
      'Nothing has been recorded since 13:42: no space left. 3 entries are lost. ' +
        'Floods and alarms go on, but a restart may forget them. ' +
        'Look whether the disk of the host is full or worn out.',
    ]);
    expect(cards({ journal: { kind: 'behind', waiting: 9, seconds: 59 } })).toEqual([]);
    expect(cards({ journal: { kind: 'behind', waiting: 9, seconds: 120 } })[0]).toMatchObject([
      'not-recording',
      'low',
      /9 entries have waited for up to 2 min/,
    ]);
  });

  it('is a safe mode with its reason and the number of starts', () => {
    expect(cards({ safeMode: 'three starts in 10 min', restarts: 3 })[0]).toMatchObject([
      'safe-mode',
      'medium',
      /after 3 starts: three starts in 10 min\./,
    ]);
  });

  it.each<readonly [percent: number, priority: string | undefined]>([
    [0, undefined],
    [2, undefined],
    [-2, undefined],
    [2.1, 'low'],
    [-5, 'low'],
    [5.1, 'medium'],
    [-20, 'medium'],
    [NaN, undefined],
  ])('is a board clock that is %d %% off: %s', (percentFast, priority) => {
    const [card] = cards({ boardClock: { percentFast, since: minutesAgo(15) } });
    expect(card?.[1]).toBe(priority);
    if (card !== undefined) expect(card[2]).toMatch(percentFast > 0 ? /% faster/ : /% slower/);
  });

  it('is a line that spoils 1 message in 12: low, with its share, and one that spoils nearly all', () => {
    const line = (percentSpoilt: number): readonly (readonly [string, string, string])[] =>
      cards({ line: { percentSpoilt, since: minutesAgo(15) } });
    expect(line(8.3)).toEqual([
      [
        'line-bad',
        'low',
        'The line to the board has been bad since 13:42: one message in 12 comes spoilt. ' +
          'What is spoilt is dropped; if it gets worse the host loses the board. ' +
          "Look at the board's cable: its plugs, its length, its distance to the pump's mains lead. " +
          'Move the cable, not the mains lead.',
      ],
    ]);
    expect(line(90)[0]?.[2]).toMatch(/nearly all of it comes spoilt/);
  });

  it('is a chip of 78 °C: low, with dry hands before any other advice', () => {
    expect(cards({ chip: { celsius: 78.4, since: minutesAgo(15) } })).toEqual([
      [
        'host-hot',
        'low',
        'The chip of the host has been too hot since 13:42: now 78 °C. It may slow down, or stop. ' +
          'With dry hands: give it shade and air, clear it of dust, and keep other work off it.',
      ],
    ]);
  });

  it('is 214 MB of memory: low, and says whether the host is started anew for it by itself or by hand', () => {
    const memory = (renewed: 'by-itself' | 'by-hand'): readonly (readonly [string, string, string])[] =>
      cards({ memory: { megabytes: 214.4, since: minutesAgo(15), renewed } });
    expect(memory('by-itself')).toEqual([
      [
        'host-large',
        'low',
        'The program of the host has taken too much memory since 13:42: now 214 MB. ' +
          'It ends by itself between two floods, at night if it can wait, and is started anew at once. ' +
          'Nothing to do now; if it comes again, report it as a defect.',
      ],
    ]);
    expect(memory('by-hand')[0]?.[2]).toBe(
      'The program of the host has taken too much memory since 13:42: now 214 MB. ' +
        'It may be cut off in the middle of a flood. ' +
        'End it between two floods and start it anew; then report this as a defect.',
    );
  });

  it('is a battery of 18 %: medium, with what goes on without the host; one that is very low is high', () => {
    const battery = (level: 'low' | 'very-low', volts: number | null): ReturnType<typeof cards> =>
      cards({ battery: { percent: 18, volts, level, since: minutesAgo(15) } });
    expect(battery('low', 11.43)).toEqual([
      [
        'host-battery',
        'medium',
        'The battery of the host is being drained since 13:42: now 18 %, 11.4 V. When it is flat the host is gone and calls nobody: ' +
          'a board with a keeper goes on flooding by its own table, a stock board floods no more. ' +
          'With dry hands see its power supply and the mains; charge or change the battery.',
      ],
    ]);
    const [card] = battery('very-low', null);
    expect([card?.[1], card?.[2].includes('now 18 %. When')]).toEqual(['high', true]);
  });

  it('fits 320 characters, whatever the operating system says', () => {
    const why = 'w'.repeat(300);
    const channels = ['a', 'b', 'c', 'd'].map((name) => ({
      name: name.repeat(20),
      why,
      since: minutesAgo(1),
    }));
    const journal = { kind: 'not-recording', why, sinceMonotonic: minutesAgo(1), dropped: 99_999 } as const;
    const all = cards({
      channels,
      journal,
      safeMode: why,
      boardClock: { percentFast: 9, since: minutesAgo(9) },
      line: { percentSpoilt: 7, since: minutesAgo(9) },
      chip: { celsius: 99, since: minutesAgo(9) },
      battery: { percent: 9, volts: 11.4, level: 'very-low', since: minutesAgo(9) },
      memory: { megabytes: 299, since: minutesAgo(9), renewed: 'by-hand' },
    });
    expect(all).toHaveLength(8);
    expect(all.filter(([, , text]) => text.length > 320)).toEqual([]);
  });
});

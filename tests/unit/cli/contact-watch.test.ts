import { describe, expect, it } from 'vitest';
import type { Console } from '../../../firmware-host/cli/console.ts';
import { contactLines, watchedContacts } from '../../../firmware-host/cli/contact-watch.ts';
import type { Dialogue } from '../../../firmware-host/devices/keeper/dialogue.ts';
import { statusIn, type KeeperStatus } from '../../../firmware-host/devices/keeper/status.ts';

const NOTHING = statusIn(new Uint8Array(49))!;
type SeenNow = Partial<KeeperStatus['seen']>;
const statusWith = (seen: SeenNow): KeeperStatus => ({ ...NOTHING, seen: { ...NOTHING.seen, ...seen } });

const watched = async (
  seconds: number,
  ...looks: readonly SeenNow[]
): Promise<{
  readonly talk: readonly string[];
  readonly found: Awaited<ReturnType<typeof watchedContacts>>;
}> => {
  let look = 0;
  const dialogue: Pick<Dialogue, 'ask'> = {
    ask: () => {
      const status = statusWith(looks[Math.min(look, looks.length - 1)]!);
      look += 1;
      return Promise.resolve({ kind: 'status', status });
    },
  };
  const talk: string[] = [];
  const console = { talk: (text: string) => talk.push(text.trim()) } as unknown as Console;
  const found = await watchedContacts(dialogue as Dialogue, seconds, new AbortController().signal, console);
  return { talk, found };
};

describe('contacts that are watched', () => {
  it('are told in words, those alone that are fitted', () => {
    expect(contactLines(statusWith({ floatLow: true, mainsLost: false, leak: null }).seen)).toEqual([
      ['floatLow', 'tank float: low'],
      ['mainsLost', 'mains: there'],
    ]);
  });

  it('are told once and then at each change; one that moved is tested, one that stood still is not', async () => {
    const { talk, found } = await watched(
      2,
      { floatLow: false, leak: false },
      { floatLow: true, leak: false },
      { floatLow: true, leak: false },
    );
    expect(talk.map((line) => line.replace(/^\d+ s +/, ''))).toEqual([
      'tank float: not low',
      'leak sensor: dry',
      'tank float: low',
    ]);
    expect(found.map(({ verdict, says }) => [verdict, says])).toEqual([
      ['well', 'tank float: seen both ways.'],
      ['not-tried', 'leak sensor: dry all the time: not tested.'],
    ]);
  });

  it('where none is fitted are said to be none', async () => {
    const { talk, found } = await watched(0.1, {});
    expect([talk, found]).toEqual([['no contact is fitted'], []]);
  });
});

import { describe, expect, it } from 'vitest';
import { CLAIM, HELLO, STATUS, stubSetup, type StubState } from './keeper-stub.ts';
import { heardTypes, linkBench } from './link-bench.ts';

const wrongRelay = (): number[] => {
  const setup = stubSetup();
  setup[2] = 9;
  return setup;
};

/** Boards that may not be claimed. */
const REFUSED: readonly (readonly [
  string,
  Partial<StubState>,
  { readonly why: RegExp; readonly keeps: boolean },
])[] = [
  [
    'another major protocol version',
    { major: 2 },
    { why: /keeper protocol 2\.0, this program 1: flash the board/, keeps: true },
  ],
  [
    'another major version, never set up',
    { major: 2, setup: Array.from({ length: 72 }, () => 0xff) },
    { why: /keeper protocol 2\.0/, keeps: false },
  ],
  [
    'no setup',
    { notSetUp: true, setup: Array.from({ length: 72 }, () => 0xff) },
    { why: /not set up: it drives no pin.*rillkeeper board flash FARM/, keeps: false },
  ],
  ['a setup that it does not accept itself', { notSetUp: true }, { why: /not set up/, keeps: false }],
  [
    'another relay pin',
    { setup: wrongRelay() },
    { why: /relay on pin 9; by the farm file it is on pin 7\..*board\.relay\.pin/, keeps: true },
  ],
];

describe('a board that must not be driven', () => {
  it.each(REFUSED)(
    'with %s is never claimed, keeps its line, and is asked again after 60 s',
    (_, change, is) => {
      const bench = linkBench(change, { setup: Uint8Array.from(stubSetup()) });
      bench.pass(62);
      const [down] = bench.told;
      expect(down).toMatchObject({
        kind: 'down',
        keeps: is.keeps,
        why: expect.stringMatching(is.why) as string,
      });
      expect(bench.told.map(({ kind }) => kind)).toEqual(['down', 'down']);
      expect(heardTypes(bench, HELLO)).toHaveLength(2);
      const types = new Set(bench.stub.heard.map(({ type }) => type));
      expect([...types].every((type) => type === HELLO || type === STATUS)).toBe(true);
      expect(bench.link().state().refused).toMatch(is.why);
    },
  );

  it('is taken once it has been flashed rightly', () => {
    const bench = linkBench({ setup: wrongRelay() }, { setup: Uint8Array.from(stubSetup()) });
    bench.pass(10);
    bench.stub.state.setup = stubSetup();
    bench.pass(60);
    expect(bench.isUp()).toBe(true);
  });

  it('is any board, for a program that was given no setup', () => {
    const bench = linkBench({}, { setup: null });
    bench.pass(3);
    expect(bench.told).toMatchObject([{ kind: 'down', keeps: true, why: /not told the farm's setup/ }]);
    expect(heardTypes(bench, CLAIM)).toEqual([]);
  });
});

describe('a board that is only looked at', () => {
  it('is asked for its status each second, and nothing is claimed or commanded', () => {
    const bench = linkBench({}, { use: 'look' });
    bench.pass(10);
    bench.link().command({ kind: 'pump-off' });
    bench.link().alive('unknown');
    bench.link().letGo();
    bench.pass(1);
    const types = bench.stub.heard.map(({ type }) => type);
    expect(new Set(types)).toEqual(new Set([HELLO, STATUS]));
    expect(types.filter((type) => type === STATUS).length).toBeGreaterThanOrEqual(10);
    expect(bench.stub.state.owner).toBe('keeper');
  });
});

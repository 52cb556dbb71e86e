import { describe, expect, it } from 'vitest';
import { demoWiring } from '../../../sim/board/demo-wiring.ts';
import { begin, step } from '../../../src/controller.ts';
import type { Link } from '../../../src/ports/board.ts';
import type { Now } from '../../../src/time/instant.ts';
import { statusSentence } from '../../../firmware-host/status-view.ts';
import { exampleFarm } from '../../support/farm.ts';
import { minute, utc } from '../../support/moments.ts';

const NOW: Now = { monotonic: minute(500), wall: utc('2026-07-14T11:00Z') };
const RESTING = step(
  exampleFarm,
  begin(exampleFarm, NOW, { kind: 'up' }),
  { kind: 'samples', samples: [] },
  NOW,
);

const sentence = (link: Link): string =>
  statusSentence({
    farm: exampleFarm,
    wiring: demoWiring(exampleFarm),
    calibration: null,
    simulated: false,
    board: { says: 'a board', warning: null },
    step: {
      ...RESTING,
      left: () => ({ minutes: 83.4, bench: 'Bench 4' }),
      state: { ...RESTING.state, link, linkDownSince: minute(497) },
    },
    last: null,
    now: NOW,
  });

describe('the first sentence while the board is gone', () => {
  it.each([
    [{ kind: 'down', why: 'unplugged' }, 'NO BOARD for 3 min, about 83 min left.'],
    [
      { kind: 'down', why: 'unplugged', keeper: 'keeps' },
      'NO BOARD for 3 min, about 83 min left. With power it floods by its own table.',
    ],
  ] as const)('of %j', (link, says) => {
    expect(sentence(link)).toBe(says);
  });
});

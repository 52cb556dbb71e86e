import fc from 'fast-check';
import { afterAll, describe, expect, it } from 'vitest';
import { compiled, factOf } from '../support/cpp.ts';
import { lineOf, script, spokenBy } from './handover/host-script.ts';

const FOLDER = 'tests/keeper/handover';
const ANY_ORDERS = `${FOLDER}/any_orders.cpp`;
const HAND_OVER = `${FOLDER}/hand_over.cpp`;
const HOST_SCRIPT = `${FOLDER}/host_script.cpp`;

/** How many states the two that are not looked at to the end may have; more by hand, at 60 to 110 bytes each. */
const FLOAT_STATES = process.env['EXPLORED_FLOAT_STATES'] ?? '1500000';
const LINE_STATES = process.env['EXPLORED_LINE_STATES'] ?? '3000000';

const SHORT = ['-O2', '-DKEEPER_TIMES_HEADER="short_times.h"', `-I${FOLDER}`];
const SHORTER = [...SHORT, '-DSHORTER_TABLE', '-DSHORT_STARTS_SPAN=1'];
const [orders, line, host] = await Promise.all([
  compiled([ANY_ORDERS], SHORT),
  compiled([HAND_OVER], SHORTER),
  compiled([HOST_SCRIPT], [...SHORTER, '-DSPANS_OF_THE_HOST']),
]);
const [ordersTold, lineTold] = await Promise.all([
  orders.lines(ANY_ORDERS, FLOAT_STATES),
  line.lines(HAND_OVER, LINE_STATES),
]);
const isFact = (said: string): boolean => !said.startsWith('# ');

afterAll(() => {
  for (const programs of [orders, line, host]) programs.remove();
});

describe.each([
  ['one board', ordersTold, 4],
  ['board, host and line', lineTold, 2],
] as const)('%s in every order of events', (_, told, due) => {
  it(`tells ${due} facts`, () => {
    expect(told.filter(isFact)).toHaveLength(due);
  });
  it.each(told.filter(isFact).map(factOf))('$title', ({ failure }) => {
    expect(failure).toBeNull();
  });
});

describe('the host in the exploration', () => {
  const scripts = fc.sample(script, 2000);

  it('says the same as the state machine of the host, event by event, in 2,000 scripts', () => {
    const printed = host.answers(HOST_SCRIPT, scripts.flat().map(lineOf));
    let number = 0;
    let place = 0;
    for (const events of scripts) {
      const due = spokenBy(events, number);
      number += events.length;
      const said = printed.slice(place, place + due.length);
      expect(said, events.map(lineOf).join('; ')).toEqual(due);
      place += due.length;
    }
    expect(printed).toHaveLength(place);
  });

  it('owns the pump in more than 20,000 of their events, and does everything else in more than 100', () => {
    const lines = scripts.flatMap((events) => spokenBy(events, 0)).map((said) => said.replace(/^\d+ /, ''));
    const count = (start: string): number => lines.filter((said) => said.startsWith(start)).length;
    expect(count('phase 4')).toBeGreaterThan(20_000);
    for (const start of ['phase 2', 'phase 3', 'phase 5', 'on ', 'off', 'hold', 'release', 'let-go'])
      expect(count(start), start).toBeGreaterThan(100);
  });
});

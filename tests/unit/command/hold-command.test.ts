import { expect, it } from 'vitest';
import { holdCommand } from '../../../src/command/hold-command.ts';
import { NO_ORDERS } from '../../../src/command/orders.ts';
import { minute } from '../../support/moments.ts';

it('tells a board how many seconds of a hold are left, and to let go where there is none', () => {
  const hold = { from: minute(0), until: minute(30), who: 'Ana' };
  expect(holdCommand({ ...NO_ORDERS, hold }, minute(10))).toEqual({ kind: 'hold', longest: 1200 });
  expect(holdCommand(NO_ORDERS, minute(10))).toEqual({ kind: 'release' });
});

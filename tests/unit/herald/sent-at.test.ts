import { describe, expect, it } from 'vitest';
import { sentAtIn } from '../../../firmware-host/herald/gsm/sent-at.ts';

const header = (stamp: string): string => `+CMGR: "REC UNREAD","+351912000001",,"${stamp}",145,4,0,0`;

describe('the moment at which a text was sent', () => {
  it.each([
    ['26/07/14,13:42:00+04', '2026-07-14T12:42:00Z'],
    ['26/01/14,13:42:07+00', '2026-01-14T13:42:07Z'],
    ['26/01/01,00:15:00+22', '2025-12-31T18:45:00Z'],
    ['26/07/14,13:42:00-16', '2026-07-14T17:42:00Z'],
    ['28/02/29,23:59:59+08', '2028-02-29T21:59:59Z'],
  ])('of %s is %s: the zone counts quarters of an hour', (stamp, iso) => {
    expect(sentAtIn(header(stamp))).toBe(Date.parse(iso));
  });

  it.each([
    '26/07/14,13:42:00',
    '26/13/14,13:42:00+04',
    '26/02/30,13:42:00+04',
    '00/00/00,00:00:00+00',
    '26/07/14,24:42:00+04',
    '26/07/14,13:42:00+96',
    '',
  ])('of %j is not known', (stamp) => {
    expect(sentAtIn(header(stamp))).toBeUndefined();
  });
});
